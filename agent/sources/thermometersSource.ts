import type { FaultWord } from "@boothward/shared-types";
import { pollingSource } from "../readings/pollingSource.ts";
import type { Source, SourceItem } from "../readings/source.ts";
import type { Surroundings } from "./surroundings.ts";
import type { Thermometer, ThermometerReading } from "./thermometers.ts";
import { findThermometers } from "./thermometers.ts";
import type { ThermometersSourceConfig } from "./thermometersSourceConfig.ts";

/** A change of this much is told at once; less is noise of the sensor. */
const tellFromC = 0.1;
/** An unchanged temperature is told this often, so that its age stays small. */
const tellEveryMs = 60_000;
/** A long wire spoils an answer now and then; this many in a row are a fault. */
const badReadsToFault = 3;

/** What the readings allow, `insideReading` and `outsideReading` in shared-types. */
const limits = { inside: { leastC: -80, mostC: 150 }, outside: { leastC: -80, mostC: 80 } } as const;

/** What is known of one sensor. */
type Following = {
  readonly place: "inside" | "outside";
  /** Source of its items, so that each sensor has its own fault. */
  readonly source: string;
  toldC: number | null;
  toldAtMonoMs: number;
  badReads: number;
  /** undefined before the first word about it. */
  fault: FaultWord | null | undefined;
};

/**
 * The thermometers named in the settings: `inside` or `outside` readings when one moves by 0.1 degrees and
 * once a minute. Each sensor is a source of its own to those who read on, so that one that was unplugged is
 * `missing` while the others go on.
 */
export function thermometersSource(config: ThermometersSourceConfig, { clock }: Surroundings): Source {
  const followings = new Map(
    Object.entries(config.sensors).map(([key, place]): [string, Following] => [
      key,
      {
        place,
        source: `${config.name} ${key}`.slice(0, 80),
        toldC: null,
        toldAtMonoMs: -Infinity,
        badReads: 0,
        fault: undefined,
      },
    ]),
  );
  return pollingSource({
    name: config.name,
    everyMs: config.everyMs,
    async read() {
      const found = new Map((await findThermometers(config.root)).map((each) => [each.key, each]));
      const items: SourceItem[] = [];
      for (const [key, following] of followings) {
        const answer = await readOne(found.get(key));
        items.push(...itemsOf(key, following, answer, clock().monoMs));
      }
      return { items };
    },
  });
}

type Answer = ThermometerReading | { readonly fault: "missing"; readonly detail: string };

async function readOne(thermometer: Thermometer | undefined): Promise<Answer> {
  return thermometer
    ? await thermometer.read()
    : { fault: "missing", detail: "no such sensor is plugged in" };
}

/** What there is to tell of one sensor after this answer; `following` is brought up to date. */
function itemsOf(key: string, following: Following, answer: Answer, monoMs: number): readonly SourceItem[] {
  const checked = "celsius" in answer ? inLimits(answer, following.place) : answer;
  if ("fault" in checked) return faultItems(following, checked);
  following.badReads = 0;
  const state = stateItems(following, null, null);
  const { celsius, humidityPct } = checked;
  const movedC = Math.abs(celsius - (following.toldC ?? Infinity));
  // Half a thousandth: the difference of two readings in thousandths is not exact in binary.
  const isDue = movedC >= tellFromC - 0.0005 || monoMs - following.toldAtMonoMs >= tellEveryMs;
  if (!isDue) return state;
  Object.assign(following, { toldC: celsius, toldAtMonoMs: monoMs });
  const { source, place } = following;
  const sensor = key.slice(0, 200);
  const item =
    place === "inside"
      ? ({ class: "reading", kind: "inside", sensor, insideC: celsius, humidityPct } as const)
      : ({ class: "reading", kind: "outside", sensor, outsideC: celsius } as const);
  return [...state, { source, item }];
}

function inLimits(
  reading: { celsius: number; humidityPct: number | null },
  place: Following["place"],
): Answer {
  const { leastC, mostC } = limits[place];
  if (reading.celsius >= leastC && reading.celsius <= mostC) return reading;
  return { fault: "unreadable", detail: `it says ${reading.celsius} °C` };
}

function faultItems(
  following: Following,
  { fault, detail }: { fault: "missing" | "unreadable"; detail: string },
): readonly SourceItem[] {
  following.badReads += 1;
  if (fault === "unreadable" && following.badReads < badReadsToFault) return [];
  following.toldC = null;
  return stateItems(following, fault, detail);
}

function stateItems(
  following: Following,
  fault: FaultWord | null,
  detail: string | null,
): readonly SourceItem[] {
  if (following.fault === fault) return [];
  following.fault = fault;
  return [{ source: following.source, item: { class: "fact", kind: "sourceState", fault, detail } }];
}
