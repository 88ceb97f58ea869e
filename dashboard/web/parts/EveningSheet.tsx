import type { BoothEvening, BoothView } from "@boothward/shared-types/view";
import { useState } from "preact/hooks";
import { paperBand, paperHeading } from "../words/boothWords.ts";
import { paper as words } from "../words/en/booth.ts";
import type { Format } from "../../alerts/format.ts";
import { EveningPicture } from "./EveningPicture.tsx";
import { later } from "./later.tsx";
import { isSmall, nearInput } from "./nearInput.ts";
import { stripInput } from "./stripInput.ts";
import type { StripInput } from "./stripShape.ts";
import { sunWithin } from "./sunWithin.ts";
import { noWish } from "./tried.ts";
import type { Trial } from "./tried.ts";

const PaperTable = later(
  () => import("../desk/desk.ts").then((file) => file.PaperTable),
  () => <div class="table-waiting" />,
);
const SunCaption = later(
  () => import("../desk/desk.ts").then((file) => file.SunCaption),
  () => null,
);
const WhatIfs = later(
  () => import("../desk/desk.ts").then((file) => file.WhatIfs),
  () => <div class="whatifs" />,
);

type EveningSheetProps = {
  booth: BoothView;
  evening: BoothEvening | null;
  nowMs: number;
  isOld: boolean;
  format: Format;
};

/** The paper of the evening: its sentence, its picture, how sure it is, the same as a table, and what to try. */
export function EveningSheet({ booth, evening, nowMs, isOld, format }: EveningSheetProps) {
  const [trial, setTrial] = useState<Trial | null>(null);
  const [isLarge, setLarge] = useState(false);
  const input = stripInput(booth, nowMs, isOld, null);
  const closeAtMs = booth.booking?.closeAtMs ?? null;
  const looked = isOld ? null : (trial?.look(evening, closeAtMs, format) ?? null);
  const tried = looked?.tried ?? null;
  const sun = input === null ? [] : sunWithin(booth.outlook.sun ?? [], input.fromAtMs, input.toAtMs);
  const heading = looked?.heading ?? paperHeading(booth, format, isOld);
  const canEnlarge = !isOld && input !== null && input.fan.length > 0 && isSmall(input);
  const drawn = canEnlarge && isLarge ? nearInput(input) : input;
  const canTry = !isOld && closeAtMs !== null && nowMs < closeAtMs && (evening?.whatIfs.length ?? 0) > 0;
  return (
    <section class="sheet">
      <h2 aria-live={tried === null ? "off" : "polite"}>{heading}</h2>
      {input !== null && drawn !== null && (
        <>
          <EveningPicture
            input={drawn}
            tried={tried}
            changesAtMs={booth.rollChangesAtMs}
            sun={sun}
            isOld={isOld}
            format={format}
            label={`${words.label} ${heading}`}
          />
          <p class="cap">
            {isOld ? words.oldInk : (looked?.ink ?? inkSentence(booth, drawn, format))}
            {booth.outlook.sun !== null && <SunCaption sun={sun} format={format} />}
          </p>
          <div class="under">
            {canEnlarge && (
              <button type="button" class="link" onClick={() => setLarge(!isLarge)}>
                {isLarge ? words.whole : words.large}
              </button>
            )}
            <PaperTable
              input={input}
              tried={tried}
              changesAtMs={booth.rollChangesAtMs}
              sun={sun}
              format={format}
            />
          </div>
        </>
      )}
      {canTry && (
        <WhatIfs booth={booth} wish={trial?.wish ?? noWish} tried={tried} choose={setTrial} format={format} />
      )}
    </section>
  );
}

/** How sure the forecast is, and which ink is which: only of what is drawn. */
function inkSentence(booth: BoothView, drawn: StripInput, format: Format): string {
  if (drawn.fan.length === 0) return words.usedInk;
  const hasDots = drawn.changeAtMs !== null && drawn.topSheets === null;
  return [paperBand(booth, format), words.usedInk, words.fanInk, hasDots ? words.dots : ""].join(" ").trim();
}
