import { beamOnFloor } from "../../forecast/sun/beamOnFloor.ts";
import type { BoothFrame, SunSite } from "../../forecast/sun/boothFrame.ts";
import { clearSunAt } from "../../forecast/sun/sunRay.ts";
import { Fitted } from "../parts/Fitted.tsx";
import type { Room } from "../parts/Fitted.tsx";
import { sunPlan as words } from "../words/en/sun.ts";
import type { Format } from "../../alerts/format.ts";
import { litThrough } from "./dayPlan.ts";
import type { DayPlan } from "./dayPlan.ts";
import { arcPath, hourMarks, openingOn, pathOf, placeOn, planBox, pointAt } from "./planShape.ts";
import type { PlanBox } from "./planShape.ts";
import { openingLabels } from "./planText.ts";

type DrawingProps = {
  plan: DayPlan;
  frame: BoothFrame;
  site: SunSite;
  atMs: number;
  format: Format;
  label: string;
};

/** The booth from above at one moment: walls, openings, printer, the sun on its way round, the beam on the floor. */
export function PlanDrawing(props: DrawingProps) {
  return <Fitted>{(room) => <DrawingIn {...props} {...room} />}</Fitted>;
}

function DrawingIn(props: DrawingProps & Room) {
  const box = planBox(props.frame, props.widthPx, props.textPx);
  const { sizePx } = box;
  return (
    <svg
      class="from-above"
      viewBox={`0 0 ${sizePx} ${sizePx}`}
      width={sizePx}
      height={sizePx}
      role="img"
      aria-label={props.label}
    >
      <Ring {...props} box={box} />
      <Booth {...props} box={box} />
      <Sun {...props} box={box} />
    </svg>
  );
}

type Drawn = DrawingProps & Room & { box: PlanBox };

/** The ring of directions with the sun's way on it, the part in which it is on the printer, and the hours. */
function Ring({ plan, site, format, box, textPx }: Drawn) {
  const middle = box.sizePx / 2;
  const isUp = plan.sun.course !== "downAllDay";
  return (
    <>
      <circle class="ring" cx={middle} cy={middle} r={box.rimPx} />
      <text class="b" x={middle} y={middle - box.rimPx + textPx * 1.5} text-anchor="middle">
        {words.north}
      </text>
      {isUp && <path class="arc" d={arcPath(site, plan.slide, box)} />}
      {plan.onPrinter.map((stretch) => (
        <path key={stretch.fromMs} class="arc lit" d={arcPath(site, stretch, box)} />
      ))}
      {isUp &&
        hourMarks(site, plan.slide, box, textPx).map(({ atMs, dot, label }) => (
          <g key={atMs}>
            <circle class="hour" cx={dot.xPx} cy={dot.yPx} r="2.2" />
            {label !== null && (
              <text x={label.xPx} y={label.yPx + textPx * 0.35} text-anchor="middle">
                {format.hour(atMs)}
              </text>
            )}
          </g>
        ))}
    </>
  );
}

function Booth({ plan, frame, site, atMs, box, textPx }: Drawn) {
  const { widthM, lengthM, printer } = frame;
  const place = (xM: number, yM: number) => placeOn(frame, box, xM, yM);
  const corners = [place(0, 0), place(widthM, 0), place(widthM, lengthM), place(0, lengthM)];
  const tipM = (textPx * 0.7) / box.pxPerM;
  const front = [
    place(widthM / 2 - tipM, lengthM),
    place(widthM / 2, lengthM + tipM),
    place(widthM / 2 + tipM, lengthM),
  ];
  const at = place(printer.xM, printer.yM);
  const isLit = litThrough(plan, atMs).length > 0;
  const isRight = at.xPx < box.sizePx / 2 + textPx;
  return (
    <>
      <path class="floor" d={pathOf(corners, true)} />
      {beamOnFloor(frame, site, atMs).map((beam) => (
        <path
          key={beam.opening}
          class="beam"
          d={pathOf(
            beam.corners.map(({ xM, yM }) => place(xM, yM)),
            true,
          )}
        />
      ))}
      <path class="front" d={pathOf(front, true)} />
      <path class="wall" d={pathOf(corners, true)} />
      {openingLabels(frame.openings).map((name, index) => {
        const shape = openingOn(frame, box, index, textPx);
        if (shape === null) return null;
        return (
          <g key={name}>
            <path class="awning" d={pathOf(shape.awning)} />
            <path class="gap" d={pathOf(shape.ends)} />
            {shape.ends.map((end) => (
              <circle key={end.xPx} class="jamb" cx={end.xPx} cy={end.yPx} r="3" />
            ))}
            <text x={shape.nameAt.xPx} y={shape.nameAt.yPx} text-anchor={shape.anchor}>
              {name.replace(` ${words.openingAt("").trim()}`, "")}
            </text>
          </g>
        );
      })}
      <rect
        class={`printer ${isLit ? "lit" : ""}`}
        x={at.xPx - 7}
        y={at.yPx - 7}
        width="14"
        height="14"
        rx="2"
      />
      <text
        class="b halo"
        x={at.xPx + (isRight ? 11 : -11)}
        y={at.yPx + textPx * 0.35}
        text-anchor={isRight ? "start" : "end"}
      >
        {words.printer}
      </text>
    </>
  );
}

/** The sun where it stands, with its ray to the printer while it is on it; nothing while it is down. */
function Sun({ plan, frame, site, atMs, box }: Drawn) {
  const { azimuthDeg, elevationDeg, clearDeg } = clearSunAt(site, atMs);
  if (elevationDeg <= 0) return null;
  const sun = pointAt(box, azimuthDeg, box.rimPx);
  const isLit = litThrough(plan, atMs).length > 0;
  const printer = placeOn(frame, box, frame.printer.xM, frame.printer.yM);
  return (
    <>
      {isLit && <path class="ray" d={pathOf([sun, printer])} />}
      <circle class={`disc ${clearDeg <= 0 ? "behind" : ""}`} cx={sun.xPx} cy={sun.yPx} r="10" />
    </>
  );
}
