import { useState } from "preact/hooks";
import { Choice, FormRefusal } from "../parts/Field.tsx";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { done } from "../state/api.ts";
import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { nowMs } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { plan as words } from "../words/en/plan.ts";

/** Lets another booth go on with an event that is under way. */
export function SwapBooth(props: {
  booking: BookingEntry;
  booths: readonly BoothEntry[];
  changed: () => void;
}) {
  const page = usePage();
  const { refusal, send } = useSend();
  const { boothId, bookingId } = props.booking;
  const others = props.booths.filter((booth) => booth.boothId !== boothId);
  const [chosen, setChosen] = useState(others[0]?.boothId ?? "");
  const nameOf = (id: string) => props.booths.find((booth) => booth.boothId === id)?.name ?? "?";
  if (others.length === 0) return null;
  const swap = async () => {
    const address = `/api/bookings/${encodeURIComponent(bookingId)}/swap`;
    const body = { toBoothId: chosen, atMs: Math.round(nowMs.value) };
    if ((await send(() => page.call("POST", address, done, body))) !== null) props.changed();
  };
  return (
    <details>
      <summary>{words.swap}</summary>
      <div class="more-fields">
        <p>{words.swapLead(nameOf(boothId))}</p>
        <Choice name="toBoothId" label={words.swapTo} value={chosen} refusal={refusal} onChoose={setChosen}>
          {others.map((booth) => (
            <option key={booth.boothId} value={booth.boothId}>
              {booth.name}
            </option>
          ))}
        </Choice>
        <FormRefusal refusal={refusal} shown={["toBoothId"]} />
        <div class="row">
          <TwoTaps
            word={words.swapNow}
            ask={words.swapAsk(nameOf(boothId), nameOf(chosen))}
            yes={words.swapYes}
            no={words.swapNo}
            act={() => void swap()}
          />
        </div>
      </div>
    </details>
  );
}
