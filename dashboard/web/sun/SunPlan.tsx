import type { BoothBox } from "@boothward/shared-types/site";
import { useMemo, useState } from "preact/hooks";
import type { BoothFrame, SunSite } from "../../forecast/sun/boothFrame.ts";
import { AsTable } from "../parts/AsTable.tsx";
import { FigureTable } from "../parts/FigureTable.tsx";
import { Field } from "../parts/Field.tsx";
import { nowMs, units } from "../state/signals.ts";
import { sunPlan as words } from "../words/en/sun.ts";
import { formatIn } from "../../alerts/format.ts";
import { wallOf } from "../words/zonedTime.ts";
import { dayPlan, firstMoment, hoursOn, slideStepMs } from "./dayPlan.ts";
import type { DayPlan } from "./dayPlan.ts";
import { MissingForPlan } from "./MissingForPlan.tsx";
import { PlanDrawing } from "./PlanDrawing.tsx";
import { sceneOf } from "./planned.ts";
import type { Planned } from "./planned.ts";
import { dayText, hourRows, momentText, openingRows } from "./planText.ts";
import { WhereToStand } from "./WhereToStand.tsx";
import "../styles/sun.css";

type SunPlanProps = { title: string; box: BoothBox | null; planned: Planned | null };

/** The booth from above with the sun of a day: the event's at first, another one by its date. */
export function SunPlan({ title, box, planned }: SunPlanProps) {
  const scene = sceneOf(box, planned);
  if ("missing" in scene) return <MissingForPlan missing={scene.missing} />;
  return <PlanOfDay key={scene.planned.openAtMs} title={title} {...scene} />;
}

type Scene = { title: string; frame: BoothFrame; site: SunSite; planned: Planned };

function PlanOfDay({ title, frame, site, planned }: Scene) {
  const { zone } = planned;
  const [date, setDate] = useState(wallOf(planned.openAtMs, zone).date);
  const key = JSON.stringify([frame, site, planned]);
  const plan = useMemo(() => dayPlan(frame, site, zone, hoursOn(date, planned)), [key, date]);
  const format = formatIn(zone, units.value);
  const isUp = plan.sun.course !== "downAllDay";
  return (
    <div class="sunplan">
      <p class="small">{`${title} · ${format.day(plan.hours.fromMs)}`}</p>
      <h3 class="do" aria-live="polite">
        {dayText(plan, frame, format)}
      </h3>
      <p class="small">
        {plan.sun.course === "upAllDay" ? `${words.neverDown} ${words.clear}` : words.clear}
      </p>
      {isUp && <Moment key={plan.hours.fromMs} plan={plan} frame={frame} site={site} zone={zone} />}
      <div class="noprint">
        <Field name="date" type="date" label={words.date} value={date} onWrite={setDate} refusal={null} />
      </div>
      <h3>{words.table}</h3>
      <FigureTable columns={words.columns} rows={openingRows(plan, frame, format)} />
      {isUp && <AsTable name={words.hours} columns={words.hourColumns} rows={hourRows(plan, site, format)} />}
      {isUp && <WhereToStand plan={plan} frame={frame} site={site} format={format} />}
      <div class="row noprint">
        <button type="button" class="btn" onClick={() => window.print()}>
          {words.print}
        </button>
      </div>
    </div>
  );
}

type MomentProps = { plan: DayPlan; frame: BoothFrame; site: SunSite; zone: string };

/** The picture at one moment, and the slider that moves it over the day. */
function Moment({ plan, frame, site, zone }: MomentProps) {
  const { fromMs, toMs } = plan.slide;
  const [atMs, setAtMs] = useState(() => firstMoment(plan, nowMs.peek()));
  const format = formatIn(zone, units.value);
  const text = momentText(plan, frame, site, atMs);
  return (
    <>
      <PlanDrawing {...{ plan, frame, site, atMs, format }} label={words.label(format.clock(atMs), text)} />
      <p class="moment">
        <b>{format.clock(atMs)}</b> {text}
      </p>
      <label class="slide noprint">
        <span>{words.slider}</span>
        <input
          type="range"
          min="0"
          max={(toMs - fromMs) / slideStepMs}
          step="1"
          value={Math.round((atMs - fromMs) / slideStepMs)}
          aria-valuetext={`${format.clock(atMs)}: ${text}`}
          onInput={(event) => setAtMs(fromMs + Number(event.currentTarget.value) * slideStepMs)}
        />
      </label>
      <SunBar plan={plan} />
      <p class="cap small">{words.cap}</p>
    </>
  );
}

/** The slider's day with the sun on the printer marked in it. */
function SunBar({ plan: { slide, onPrinter } }: { plan: DayPlan }) {
  const share = (atMs: number) => (1000 * (atMs - slide.fromMs)) / (slide.toMs - slide.fromMs);
  return (
    <svg class="sunbar noprint" viewBox="0 0 1000 8" preserveAspectRatio="none" aria-hidden="true">
      <path class="sunless" d="M0 4H1000" />
      {onPrinter.map(({ fromMs, toMs }) => (
        <path key={fromMs} class="sun" d={`M${share(fromMs)} 4H${share(toMs)}`} />
      ))}
    </svg>
  );
}
