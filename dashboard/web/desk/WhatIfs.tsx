import type { BoothView } from "@boothward/shared-types/view";
import { useState } from "preact/hooks";
import { FormRefusal } from "../parts/Field.tsx";
import { noWish } from "../parts/tried.ts";
import type { Trial, Tried, Wish } from "../parts/tried.ts";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { rollsText } from "../words/adviceWords.ts";
import { closeClock } from "../words/boothWords.ts";
import { whatIf as words } from "../words/en/desk.ts";
import type { Format } from "../../alerts/format.ts";
import { trialOf } from "./trialOf.ts";
import { useSay } from "./useSay.ts";

/** The latest close that is looked at, and the steps to it, minutes. */
const mostMin = 120;
const stepMin = 15;

type WhatIfsProps = {
  booth: BoothView;
  wish: Wish;
  tried: Tried | null;
  choose: (trial: Trial) => void;
  format: Format;
};

/** One print a session, a later close: tried at once, sent only when the later close is made so. */
export function WhatIfs({ booth, wish, tried, choose, format }: WhatIfsProps) {
  const { booking } = booth;
  const { refusal, say } = useSay(booth.boothId);
  const [made, setMade] = useState("");
  if (booking === null) return null;
  const bookedAt = closeClock(booking.closeAtMs, format);
  const closeAtMs = booking.closeAtMs + wish.extraMin * 60_000;
  const closeAt = closeClock(closeAtMs, format);
  const isWishing = wish.extraMin > 0 || wish.isOnePrint;
  const extend = async () => {
    if ((await say({ kind: "extended", bookingId: booking.bookingId, closeAtMs })) === null) return;
    setMade(words.made(closeAt));
    choose(trialOf(noWish));
  };
  const says = wish.extraMin === 0 ? words.booked(bookedAt) : words.closeAt(closeAt);
  return (
    <div class="whatifs">
      <h3>{words.title}</h3>
      <label class="switch">
        <span>{words.onePrint}</span>
        <input
          type="checkbox"
          role="switch"
          checked={wish.isOnePrint}
          onChange={(event) => choose(trialOf({ ...wish, isOnePrint: event.currentTarget.checked }))}
        />
      </label>
      <label class="slide">
        <span>{words.longer}</span>
        <b>{says}</b>
        <input
          type="range"
          min={0}
          max={mostMin}
          step={stepMin}
          value={wish.extraMin}
          aria-valuetext={says}
          onInput={(event) => choose(trialOf({ ...wish, extraMin: event.currentTarget.valueAsNumber }))}
        />
      </label>
      {isWishing && <p>{tried === null ? words.notForecast : rollsText(tried.rolls)}</p>}
      {wish.isOnePrint && <p class="small">{words.setThere}</p>}
      <FormRefusal refusal={refusal} shown={[]} />
      {wish.extraMin > 0 && (
        <div class="row">
          <TwoTaps
            key={wish.extraMin}
            word={words.makeIt}
            ask={words.ask(bookedAt, closeAt)}
            yes={words.yes(closeAt)}
            no={words.no}
            isGrave={false}
            act={() => void extend()}
          />
        </div>
      )}
      <p role="status" class="small">
        {made}
      </p>
    </div>
  );
}
