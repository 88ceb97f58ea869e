import type { BoothView } from "@boothward/shared-types/view";
import { useLayoutEffect, useRef } from "preact/hooks";
import { inOrder } from "../state/boothLook.ts";
import { commonZone, isWide, slowMs, units } from "../state/signals.ts";
import { formatIn } from "../../alerts/format.ts";
import { BoothCard } from "./BoothCard.tsx";
import { sharedAxis } from "./stripInput.ts";
import { TimeAxis } from "./TimeAxis.tsx";

/** The booths, in the dashboard's order with 'now' on top; a card that changes its place slides there once. */
export function CardList({ booths }: { booths: readonly BoothView[] }) {
  const list = useSlides(inOrder(booths).map((booth) => booth.boothId));
  const axis = sharedAxis(booths, slowMs.value);
  return (
    <div class="table" ref={list}>
      {isWide.value && (
        <TimeAxis axis={axis} nowMs={slowMs.value} format={formatIn(commonZone.value, units.value)} />
      )}
      {inOrder(booths).map((booth) => (
        <BoothCard key={booth.boothId} booth={booth} axis={axis} />
      ))}
    </div>
  );
}

/** Slides the cards of a list from where they were to where they are when their order changes. */
function useSlides(order: readonly string[]) {
  const list = useRef<HTMLDivElement>(null);
  const tops = useRef(new Map<string, number>());
  const key = order.join();
  const lastKey = useRef(key);
  useLayoutEffect(() => {
    const isMoved = lastKey.current !== key;
    lastKey.current = key;
    const isCalm = matchMedia("(prefers-reduced-motion: reduce)").matches;
    for (const card of list.current?.querySelectorAll<HTMLElement>("[data-booth]") ?? []) {
      const boothId = card.dataset["booth"] ?? "";
      const from = tops.current.get(boothId);
      tops.current.set(boothId, card.offsetTop);
      if (!isMoved || isCalm || from === undefined || from === card.offsetTop) continue;
      card.animate([{ transform: `translateY(${from - card.offsetTop}px)` }, { transform: "none" }], {
        duration: 240,
        easing: "cubic-bezier(.2,.7,.2,1)",
      });
    }
  });
  return list;
}
