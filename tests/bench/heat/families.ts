import { between, pick, type Dice } from "../../../seeds/dice.ts";
import type { OpeningView } from "../../../dashboard/forecast/sun/boothFrame.ts";
import type { Building } from "./building.ts";
import { cooling, doors, machines, office, room, together, vents } from "./doings.ts";
import type { Doings, Setting, Thermometer } from "./simulateCase.ts";

const fine: Thermometer = {
  ...{ everyMin: 1, stepC: 0.01, noiseC: 0.03, outside: true },
  ...{ gaps: 0, spikes: 0, sticks: 0 },
};

/** A trailer somewhere on a summer's day, sampled and seen in many ways. */
function trailer(dice: Dice): Setting {
  const headingDeg = between(dice, 0, 360);
  const lengthM = between(dice, 2.5, 6);
  return {
    latitudeDeg: between(dice, 28, 55) * (dice() < 0.2 ? -1 : 1),
    longitudeDeg: between(dice, -120, 150),
    month: 6,
    ...{ fromHour: between(dice, 8, 12), hours: between(dice, 6, 10) },
    building: {
      ...{ roofM2: 2.2 * lengthM, wallM2: 4.4 * (2.2 + lengthM), volumeM3: 4.6 * lengthM, headingDeg },
      absorbs: between(dice, 0.25, 0.8),
      ...{ skinU: between(dice, 0.8, 4), skinKj: between(dice, 3, 9), goodsKj: between(dice, 60, 500) },
      ...{ throughCover: 0, leakPerHour: between(dice, 0.5, 5) },
      views: Array.from(
        {
          length: pick(dice, [
            [0, 1],
            [1, 4],
            [2, 2],
          ] as const),
        },
        (_, at) => openingOf(dice, headingDeg + 90 * at),
      ),
      ...{ pane: between(dice, 0.4, 0.95), litK: 0, sensorLagMin: between(dice, 1, 8) },
    },
    weather: {
      ...{ highC: between(dice, 22, 37), rangeC: between(dice, 6, 15) },
      ...{ cloudy: between(dice, 0, 0.3), windMs: between(dice, 0.8, 4) },
    },
    thermometer: {
      ...fine,
      everyMin: pick(dice, [
        [1, 3],
        [2, 1],
        [5, 2],
      ] as const),
      stepC: pick(dice, [
        [0.01, 2],
        [0.0625, 2],
        [0.1, 2],
      ] as const),
      noiseC: between(dice, 0.01, 0.08),
      outside: dice() < 0.7,
    },
    doings: machines,
    limitAboveC: [3, 15],
  };
}

function openingOf(dice: Dice, bearing: number): OpeningView {
  return {
    bearingDeg: ((bearing % 360) + 360) % 360,
    ...{ widthM: between(dice, 0.6, 1.6), heightM: between(dice, 0.6, 1.9), sillM: between(dice, 0, 0.9) },
    ...{ overhang: null, printer: null },
  };
}

type Change = {
  readonly building?: Partial<Building>;
  readonly thermometer?: Partial<Thermometer>;
  readonly weather?: Partial<Setting["weather"]>;
  readonly doings?: Doings;
};

function changed(base: Setting, { building, thermometer, weather, doings }: Change): Setting {
  return {
    ...base,
    building: { ...base.building, ...building },
    thermometer: { ...base.thermometer, ...thermometer },
    weather: { ...base.weather, ...weather },
    doings: doings ?? base.doings,
  };
}

/** An opening towards where the sun will be in the afternoon (north of the equator west of south), printer behind. */
function sunlit(dice: Dice): Setting {
  const base = trailer(dice);
  const towards = base.latitudeDeg > 0 ? between(dice, 195, 275) : between(dice, 265, 345);
  const [widthM, heightM, sillM] = [between(dice, 0.6, 1.4), between(dice, 0.9, 1.9), between(dice, 0, 0.7)];
  const view: OpeningView = {
    ...{ bearingDeg: towards, widthM, heightM, sillM, overhang: null },
    printer: {
      depthM: between(dice, 0.5, 1.6),
      rightM: between(dice, -0.5, 0.5),
      heightM: between(dice, 0.6, 1.1),
    },
  };
  return changed(base, { building: { views: [view], litK: between(dice, 2, 7), pane: 0.9 } });
}

/** A room that people live in: heavy, heated by a timetable, read each ten minutes for days. */
function livingRoom(dice: Dice): Setting {
  const winter = dice() < 0.6;
  return {
    ...{ latitudeDeg: between(dice, 38, 58), longitudeDeg: between(dice, -10, 30) },
    ...{ month: winter ? 1 : 6, fromHour: between(dice, 0, 24), hours: 40 },
    building: {
      ...{ roofM2: 20, wallM2: 30, volumeM3: between(dice, 35, 80), headingDeg: between(dice, 0, 360) },
      ...{ absorbs: 0.5, skinU: between(dice, 0.4, 1.2), skinKj: between(dice, 40, 120) },
      ...{ goodsKj: between(dice, 800, 3000), throughCover: 0, leakPerHour: between(dice, 0.5, 1.5) },
      views: [{ ...openingOf(dice, between(dice, 0, 360)), widthM: between(dice, 1, 2.5), heightM: 1.3 }],
      ...{ pane: 0.6, litK: 0, sensorLagMin: between(dice, 3, 12) },
    },
    weather: {
      ...{ highC: winter ? between(dice, 2, 12) : between(dice, 20, 30), rangeC: between(dice, 5, 11) },
      ...{ cloudy: between(dice, 0.2, 0.8), windMs: between(dice, 1, 5) },
    },
    thermometer: {
      ...fine,
      everyMin: 10,
      stepC: pick(dice, [
        [0.01, 1],
        [0.1, 2],
      ] as const),
      noiseC: 0.02,
    },
    doings: room(winter),
    limitAboveC: [0.3, 3],
    livedInC: between(dice, 18, 23),
  };
}

/** An office by the minute, cooled or heated in working hours, with people. */
function officeDay(dice: Dice): Setting {
  const base = livingRoom(dice);
  return {
    ...changed(base, {
      building: { goodsKj: between(dice, 400, 1500), volumeM3: between(dice, 50, 120), leakPerHour: 1 },
      thermometer: {
        everyMin: 1,
        stepC: pick(dice, [
          [0.01, 1],
          [0.1, 1],
        ] as const),
        outside: dice() < 0.5,
      },
      doings: office,
    }),
    ...{ fromHour: 6, hours: 14 },
  };
}

/** A greenhouse: hardly any mass, the sun through its cover, vents that open in the heat, a heater at night. */
function greenhouse(dice: Dice): Setting {
  const base = trailer(dice);
  return {
    ...changed(base, {
      building: {
        ...{ roofM2: 60, wallM2: 70, volumeM3: 200, absorbs: 0.05, throughCover: between(dice, 0.3, 0.6) },
        ...{ skinU: 12, skinKj: 6, goodsKj: between(dice, 1500, 8000), leakPerHour: between(dice, 0.5, 2) },
        ...{ views: [], sensorLagMin: between(dice, 2, 6) },
      },
      weather: { highC: between(dice, 10, 28), cloudy: between(dice, 0, 0.8) },
      thermometer: {
        everyMin: pick(dice, [
          [5, 1],
          [10, 2],
        ] as const),
        stepC: 0.1,
        noiseC: 0.05,
        outside: dice() < 0.7,
      },
      doings: vents(between(dice, 22, 28)),
    }),
    ...{
      month: pick(dice, [
        [2, 1],
        [4, 1],
        [8, 1],
      ] as const),
      fromHour: between(dice, 0, 12),
      hours: 30,
    },
  };
}

/** Each family's setting from dice: trailers in the ways in which they differ, and other buildings. */
export const families: Readonly<Record<string, (dice: Dice) => Setting>> = {
  "trailer, closed": (dice) => changed(trailer(dice), { weather: { cloudy: 0.05 } }),
  "trailer, doors": (dice) => changed(trailer(dice), { doings: together(machines, doors) }),
  "trailer, cooling": (dice) => changed(trailer(dice), { doings: together(machines, cooling) }),
  "trailer, clouds": (dice) => changed(trailer(dice), { weather: { cloudy: between(dice, 0.4, 0.9) } }),
  "trailer, sun on the printer": sunlit,
  "trailer, drop-outs": (dice) =>
    changed(trailer(dice), { thermometer: { gaps: 2, spikes: 6, sticks: 1.5 } }),
  "trailer, coarse": (dice) =>
    changed(trailer(dice), { thermometer: { stepC: 0.5, noiseC: 0.1, outside: false } }),
  "trailer, all at once": (dice) =>
    changed(sunlit(dice), {
      weather: { cloudy: 0.4 },
      thermometer: { gaps: 1, spikes: 3 },
      doings: together(machines, doors, cooling),
    }),
  "living room": livingRoom,
  office: officeDay,
  greenhouse,
};
export const familyNames = Object.keys(families);
