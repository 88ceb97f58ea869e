import type { BoothView } from "@boothward/shared-types/view";
import { isOld, needsSomebodyNow, toneOf } from "../state/boothLook.ts";
import { isCutOff, isWide, slowMs, formatOf } from "../state/signals.ts";
import { boothSentence, figureText, heatSentence } from "../words/boothSentence.ts";
import { card as words, invented } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { Age } from "./Age.tsx";
import { BoothChip } from "./Chip.tsx";
import { Icon } from "./Icon.tsx";
import { Roll } from "./Roll.tsx";
import { Strip } from "./Strip.tsx";
import type { Axis } from "./stripInput.ts";
import { stripInput } from "./stripInput.ts";

/** A booth on Today: its roll, its evening as a strip, its sentence. `axis`: the shared clock of the wide table. */
export function BoothCard({ booth, axis }: { booth: BoothView; axis: Axis }) {
  const format = formatOf(booth);
  const now = slowMs.value;
  const tone = toneOf(booth, isCutOff.value);
  const old = isOld(booth, isCutOff.value);
  const wide = isWide.value;
  const isUrgent = old && needsSomebodyNow(booth);
  const words = <CardWords booth={booth} nowMs={now} format={format} />;
  return (
    <article class={`booth ${tone} ${isUrgent ? "urgent" : ""}`} data-booth={booth.boothId}>
      <header>
        <h2>
          <a href={`/booths/${encodeURIComponent(booth.boothId)}`}>{booth.name}</a>
        </h2>
        <span class="small place">{booth.booking?.place ?? ""}</span>
        <span class="small age">
          {booth.booking !== null && " · "}
          <Age booth={booth} format={format} />
        </span>
        <BoothChip booth={booth} nowMs={now} format={format} isCutOff={isCutOff.value} />
        {wide && words}
      </header>
      <Left booth={booth} isOld={old} format={format} />
      <div>
        <CardStrip booth={booth} nowMs={now} isOld={old} axis={wide ? axis : null} format={format} />
        {!wide && words}
      </div>
    </article>
  );
}

function CardWords({ booth, nowMs, format }: { booth: BoothView; nowMs: number; format: Format }) {
  const { why, doNow } = boothSentence(booth, nowMs, format, isCutOff.value);
  const heat = isCutOff.value ? null : heatSentence(booth, nowMs, format);
  return (
    <>
      <p>
        {doNow !== "" && <b>{`${doNow} `}</b>}
        {why}
      </p>
      {heat !== null && (
        <p class="heat">
          <Icon name="heat" size={17} />
          <span>{heat}</span>
        </p>
      )}
      {booth.scenario !== null && <p class="invented">{invented.mark}</p>}
    </>
  );
}

function Left({ booth, isOld, format }: { booth: BoothView; isOld: boolean; format: Format }) {
  const { media } = booth;
  if (media === null)
    return (
      <div class="left">
        <Roll left={null} kit={booth.kitSheets} isOld label={words.rollUnknown} />
        <span>{words.noFigure}</span>
      </div>
    );
  const figure = figureText(media, format);
  const number = format.count(media.sheetsLeft);
  return (
    <div class={`left ${figure === number ? "" : "counted"}`}>
      <Roll
        left={media.sheetsLeft}
        kit={booth.kitSheets}
        isOld={isOld}
        label={words.rollLabel(figure, format.count(booth.kitSheets))}
      />
      <div class="figure">
        {figure !== number && <span>{words.about} </span>}
        <b>{number}</b>
      </div>{" "}
      <span>{isOld ? words.then : words.left}</span>
      <small class={media.figure}>{words.figure[media.figure](media.confirmedBy)}</small>
    </div>
  );
}

function CardStrip(props: {
  booth: BoothView;
  nowMs: number;
  isOld: boolean;
  axis: Axis | null;
  format: Format;
}) {
  const input = stripInput(props.booth, props.nowMs, props.isOld, props.axis);
  if (input === null) return null;
  const { why } = boothSentence(props.booth, props.nowMs, props.format, isCutOff.value);
  return (
    <Strip
      input={input}
      size={props.axis === null ? "card" : "row"}
      isOld={props.isOld}
      format={props.format}
      label={why}
    />
  );
}
