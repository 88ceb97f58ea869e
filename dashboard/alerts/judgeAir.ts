import { insideNow, isGoodAt } from "../booth/insideNow.ts";
import type { InsideSensor } from "../booth/readings.ts";
import { condensationWait, usualTimeConstantMinutes } from "../forecast/air/condensation.ts";
import { heatForPeople } from "../forecast/air/heatForPeople.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

const minuteMs = 60_000;

/**
 * Whether something that was carried in cold sweats in this air. The case's temperature is the coldest thermometer's,
 * or what it must still be by the hours that a thermometer came through with it; what is inside is colder still.
 */
export function judgeCondensation(scene: Scene): Judged {
  const { state, atMs } = scene;
  const matter = "condensation";
  if (phaseOf(scene) === "away") return { matter, stands: "clear" };
  const fresh = state.readings.inside.filter((sensor) => isGoodAt(sensor, atMs));
  const air = fresh
    .filter((sensor) => sensor.humidityPct !== null)
    .reduce<InsideSensor | null>((a, b) => (a === null || b.insideC > a.insideC ? b : a), null);
  if (air === null || air.humidityPct === null) return { matter, stands: "unseen" };
  const timeConstantMinutes = usualTimeConstantMinutes.printer;
  const caseC = Math.min(
    ...fresh.map((sensor) => sensor.insideC),
    ...fresh.map((sensor) => laggedC(sensor, timeConstantMinutes)),
  );
  const carried = { caseC, airC: air.insideC, humidityPct: air.humidityPct, timeConstantMinutes };
  const { dewPointC, isSweating, waitMinutes } = condensationWait(carried);
  if (!isSweating && waitMinutes === 0) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: isSweating ? "holds" : "lingers", severity: "plan", since: null },
    ...{ caseC, dewPointC, insideC: air.insideC },
    waitMin: waitMinutes === null ? null : Math.ceil(waitMinutes),
  };
}

/** What a thing that went through the same air as a thermometer has by now, with one time constant. */
function laggedC({ trail, insideC }: InsideSensor, timeConstantMinutes: number): number {
  const [first] = trail;
  if (first === undefined) return insideC;
  let laggedTo = first.insideC;
  trail.forEach((point, at) => {
    const before = trail[at - 1];
    if (before === undefined) return;
    const passedMin = (point.atMs - before.atMs) / minuteMs;
    const middleC = (before.insideC + point.insideC) / 2;
    laggedTo = middleC + (laggedTo - middleC) * Math.exp(-passedMin / timeConstantMinutes);
  });
  return laggedTo;
}

/** Air is never drier, or wetter, than this where guests are: what a humidity nobody measures may be. */
const anyHumidityPct = { least: 10, most: 100 };

/** Where NWS's "extreme caution" and "danger" begin, C (90 F and 103 F); it is over this far below. */
const warnFromC = { plan: (90 - 32) / 1.8, actNow: (103 - 32) / 1.8 };
const clearBandC = 1;

/**
 * Whether the heat at a booth is hard on guests and crew, by the National Weather Service's categories: from "extreme
 * caution" on. One thermometer near a printer: advice, never a safety device.
 *
 * Without a hygrometer it holds when even dry air would be too hot, and is over when even wet air would not.
 */
export function judgeHeatForGuests(scene: Scene): Judged {
  const { state, settings, outlook, atMs } = scene;
  const matter = "heatForGuests";
  const phase = phaseOf(scene);
  if (phase === "away") return { matter, stands: "clear" };
  const inside = insideNow(state);
  if (inside === null || !isGoodAt(inside, atMs)) return { matter, stands: "unseen" };
  const { insideC } = inside;
  const isInSun = outlook.sun?.some(({ fromAtMs, toAtMs }) => fromAtMs <= atMs && atMs < toAtMs) ?? false;
  const at = (humidityPct: number) =>
    heatForPeople({ insideC, humidityPct, isInSun, isClosed: settings.isTrailer });
  const least = at(inside.humidityPct ?? anyHumidityPct.least);
  const most = at(inside.humidityPct ?? anyHumidityPct.most);
  if (most.heatIndexC < warnFromC.plan - clearBandC) return { matter, stands: "clear" };
  if (least.heatIndexC < warnFromC.plan && inside.humidityPct === null) return { matter, stands: "unseen" };
  // At an open booth the thermometer by the printer is warmer than the guests are.
  const isDanger = settings.isTrailer && least.heatIndexC >= warnFromC.actNow;
  return {
    ...noFigures,
    ...{ matter, stands: least.heatIndexC >= warnFromC.plan ? "holds" : "lingers" },
    ...{ severity: isDanger ? "actNow" : "plan", since: null, insideC },
    ...{ heatIndexC: least.heatIndexC, feelsC: isInSun ? least.feelsC : null },
  };
}
