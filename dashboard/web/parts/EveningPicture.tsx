import type { SunStretch } from "@boothward/shared-types/site";
import { strip as words } from "../words/en/today.ts";
import { sunWithin } from "./sunWithin.ts";
import type { Format } from "../../alerts/format.ts";
import { aboveLabels, belowLabels } from "./eveningLabels.ts";
import { Fitted } from "./Fitted.tsx";
import type { Room } from "./Fitted.tsx";
import { placeLabels } from "./placeLabels.ts";
import type { Label } from "./placeLabels.ts";
import { StripDrawing } from "./StripDrawing.tsx";
import { coursePath, stripShape } from "./stripShape.ts";
import type { StripBox, StripInput, StripShape } from "./stripShape.ts";
import { afterChange } from "./tried.ts";
import type { Tried } from "./tried.ts";

const heightPx = { narrow: 210, wide: 250 };
const topPx = 30;
/** The band of sun on top, and the room it takes. */
const sunPx = { tall: 6, room: 14 };

type EveningProps = {
  input: StripInput;
  /** Another close or one print a session, drawn in dots over what is expected; null: nothing is tried. */
  tried: Tried | null;
  changesAtMs: readonly number[];
  /** Sun on the printer, drawn as a band on top; none: no band. */
  sun: readonly SunStretch[];
  isOld: boolean;
  format: Format;
  label: string;
};

/**
 * A booth's evening in large: sheets left with an axis, roll changes, the lull and the change that are advised,
 * the fan, where the roll ends, the close.
 */
export function EveningPicture(props: EveningProps) {
  return <Fitted>{(room) => <EveningIn {...props} {...room} />}</Fitted>;
}

function EveningIn(props: EveningProps & Room) {
  const { format, tried, widthPx, textPx, changesAtMs } = props;
  const input = inputWith(props.input, tried);
  const box = boxIn(widthPx, textPx);
  const shape = stripShape(input, box);
  const below = placeLabels(belowLabels(input, shape, format, props.isOld), textPx, widthPx);
  const above = placeLabels(aboveLabels(input, shape, format, changesAtMs), textPx, widthPx);
  const sun = sunWithin(props.sun, input.fromAtMs, input.toAtMs);
  const bandPx = sun.length === 0 ? 0 : sunPx.room;
  const tallPx = box.bottomPx + textPx * 2;
  return (
    <svg
      class={`strip ${props.isOld ? "old" : ""} ${tried === null ? "" : "trying"}`}
      viewBox={`0 ${-bandPx} ${widthPx} ${tallPx + bandPx}`}
      width={widthPx}
      height={tallPx + bandPx}
      role="img"
      aria-label={props.label}
    >
      {bandPx > 0 && <SunBand sun={sun} input={input} shape={shape} box={box} />}
      <StripDrawing shape={shape} box={box} overPx={4}>
        <Grid input={input} shape={shape} box={box} />
      </StripDrawing>
      {tried === null ? (
        <Advised input={input} shape={shape} box={box} />
      ) : (
        <TriedFan tried={tried} bookedAtMs={props.input.closeAtMs} shape={shape} box={box} />
      )}
      {changesAtMs
        .filter((atMs) => atMs >= input.openAtMs && atMs <= input.toAtMs)
        .map((atMs) => (
          <g key={atMs} transform={`translate(${shape.x(atMs)} ${topPx})`}>
            <circle class="fitted" r="5" />
            <circle r="1.7" />
          </g>
        ))}
      {shape.lull !== null && (
        <text class="plan" x={shape.lull.toPx + 5} y={(topPx + box.bottomPx) / 2}>
          {words.lull}
        </text>
      )}
      <Texts labels={above} yPx={topPx - 6} />
      <Texts labels={below} yPx={box.bottomPx + textPx + 5} />
    </svg>
  );
}

/** The axis runs to whichever close is tried; the mark where the roll ends is then of what is tried. */
function inputWith(input: StripInput, tried: Tried | null): StripInput {
  if (tried === null) return input;
  const { closeAtMs, emptyAtMs } = tried;
  return { ...input, closeAtMs, emptyAtMs, toAtMs: closeAtMs, lull: null, changeAtMs: null };
}

function boxIn(widthPx: number, textPx: number): StripBox {
  const isBroad = widthPx > 500;
  const bottomPx = topPx + (isBroad ? heightPx.wide : heightPx.narrow);
  return { leftPx: textPx * 2.6, rightPx: widthPx - 8, topPx, bottomPx, strokePx: isBroad ? 4.2 : 3.6 };
}

type Drawn = { shape: StripShape; box: StripBox };

/** Where in these hours the sun reaches the printer, on the same axis as all below it. */
function SunBand({ sun, input, shape, box }: Drawn & { sun: readonly SunStretch[]; input: StripInput }) {
  const yPx = sunPx.tall / 2 - sunPx.room;
  return (
    <>
      <path class="sunless" d={`M${box.leftPx} ${yPx}H${box.rightPx}`} />
      {sun.map(({ fromAtMs, toAtMs }) => {
        const fromPx = shape.x(Math.max(fromAtMs, input.fromAtMs));
        return (
          <path
            key={fromAtMs}
            class="sun"
            d={`M${fromPx} ${yPx}H${shape.x(Math.min(toAtMs, input.toAtMs))}`}
          />
        );
      })}
    </>
  );
}

/** About three lines, at round numbers, up to the height of the paper. */
function Grid({ input, shape, box }: Drawn & { input: StripInput }) {
  const top = input.topSheets ?? input.kitSheets;
  const step = [10, 20, 50, 100, 200, 500].find((each) => top / each < 4.5) ?? 1000;
  const steps = Array.from({ length: Math.floor(top / step) }, (_, i) => (i + 1) * step);
  return steps.map((sheets) => (
    <g key={sheets}>
      <path class="grid" d={`M${box.leftPx} ${shape.y(sheets)}H${box.rightPx}`} />
      <text x={box.leftPx - 6} y={shape.y(sheets) + 4} text-anchor="end">
        {sheets}
      </text>
    </g>
  ));
}

/** The change that is advised: its moment, and in grey dots how a full roll would go on from there. */
function Advised({ input, shape, box }: Drawn & { input: StripInput }) {
  if (input.changeAtMs === null) return null;
  const px = shape.x(input.changeAtMs);
  // A full roll is higher than the paper of a picture in large.
  const after = input.topSheets === null ? coursePath(afterChange(input), "p50", shape.x, shape.y) : "";
  return (
    <>
      <path class="after" d={after} />
      <path class="advised" d={`M${px} ${box.topPx}V${box.bottomPx}`} />
      <circle class="advised" cx={px} cy={box.topPx} r="5" />
    </>
  );
}

function TriedFan(props: Drawn & { tried: Tried; bookedAtMs: number | null }) {
  const { tried, bookedAtMs, shape, box } = props;
  return (
    <>
      {bookedAtMs !== null && bookedAtMs !== tried.closeAtMs && (
        <path class="booked" d={`M${shape.x(bookedAtMs)} ${box.topPx}V${box.bottomPx}`} />
      )}
      {(["p10", "p50", "p90"] as const).map((share) => (
        <path key={share} class={`tried ${share}`} d={coursePath(tried.fan, share, shape.x, shape.y)} />
      ))}
    </>
  );
}

function Texts({ labels, yPx }: { labels: readonly Label[]; yPx: number }) {
  return labels.map((label) => (
    <text key={label.text} class={label.tone} x={label.xPx} y={yPx} text-anchor={label.anchor}>
      {label.text}
    </text>
  ));
}
