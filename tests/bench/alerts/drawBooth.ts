import { noStanding } from "@boothward/shared-types";
import type { DayBooth } from "../../../seeds/day.ts";
import { between, noise, pick, type Dice } from "../../../seeds/dice.ts";
import type { Evening } from "./evening.ts";

const setUpMin = 90;

/** How an evening's guests come, by share of its length and parties an hour (common practice, no source). */
const curves: Readonly<Record<string, readonly (readonly [number, number])[]>> = {
  wedding: [
    [0, 14],
    [0.15, 26],
    [0.3, 30],
    [0.42, 10],
    [0.55, 8],
    [0.7, 32],
    [0.85, 28],
    [1, 12],
  ],
  party: [
    [0, 22],
    [0.2, 38],
    [0.4, 36],
    [1, 20],
  ],
  gala: [
    [0, 36],
    [0.1, 44],
    [0.2, 26],
    [0.27, 6],
    [0.42, 6],
    [0.55, 30],
    [0.7, 44],
    [1, 14],
  ],
  public: [
    [0, 16],
    [0.3, 28],
    [0.6, 32],
    [1, 16],
  ],
  corporate: [
    [0, 10],
    [0.2, 30],
    [0.5, 34],
    [0.8, 20],
    [1, 8],
  ],
};

/** A booth and its evening before anything goes wrong. */
export function drawBooth(dice: Dice, kind: Evening["kind"]): DayBooth {
  const eventKind =
    kind === "trailer"
      ? "public"
      : pick(
          dice,
          ["wedding", "party", "gala", "corporate"].map((word) => [word, 1] as const),
        );
  const [openMin, closeMin] = [setUpMin, setUpMin + 15 * Math.round(between(dice, 16, 22))];
  const level = Math.exp(noise(dice, 0.25));
  const perHour = curves[eventKind]!.map(
    ([share, high]) => [openMin + share * (closeMin - openMin), high * level] as [number, number],
  );
  const pitchesACopy =
    kind === "trailer"
      ? 2
      : pick(dice, [
          [1, 2],
          [0.5, 1],
        ] as const);
  const hours = (closeMin - openMin) / 60;
  const parties = (perHour.reduce((sum, [, high]) => sum + high, 0) / perHour.length) * hours;
  const pitches = parties * 1.7 * pitchesACopy;
  const kitSheets = pick(dice, [
    [400, 2],
    [700, 1],
  ] as const);
  return {
    ...{ name: `Booth ${eventKind}`, isTrailer: kind === "trailer", kitSheets, limitC: 40 },
    box: kind === "trailer" ? trailerBox : null,
    booking: {
      ...{ client: "An invented client", place: "An invented place", eventKind, attendant: "Ama Quill" },
      ...{
        openMin,
        closeMin,
        spareRolls: pick(dice, [
          [1, 1],
          [2, 2],
          [3, 1],
        ] as const),
        standing: noStanding,
      },
      guests: 10 * Math.max(2, Math.round(((parties / 0.75) * Math.exp(noise(dice, 0.25))) / 10)),
      sheetsLoaded: Math.round(Math.min(kitSheets, Math.max(30, pitches * between(dice, 0.4, 2)))),
    },
    guests: { perHour, poseS: [40, 66], turnS: 20 },
    prints: {
      perSheetS: between(dice, 9, 15),
      copies: [
        [1, 0.35],
        [2, 0.6],
        [3, 0.05],
      ],
      pitchesACopy,
      queue: "prints",
    },
    meter: pick(dice, [
      [null, 2],
      [{ kind: "sheets" }, 1],
      [{ kind: "percent", stepPct: 10 }, 1],
    ] as const),
    air: kind === "trailer" ? trailerAir(dice, between(dice, 2, 7)) : indoorAir(dice),
    ...{ saysRolls: true, incidents: [] },
  };
}

function indoorAir(dice: Dice): DayBooth["air"] {
  const outsideC = between(dice, 18, 23);
  return {
    ...{
      sensor: "beside the printer",
      startC: outsideC + 1,
      outsideC: [
        [0, outsideC],
        [400, outsideC - 2],
      ],
    },
    ...{
      ownHeatC: between(dice, 5, 8),
      sunC: [[0, 0]],
      settleMin: between(dice, 25, 45),
      isOutsideRead: false,
    },
  };
}

/** What the sun on the roof adds at its highest. */
export function trailerAir(dice: Dice, sunC: number): DayBooth["air"] {
  const high = between(dice, 21, 27);
  return {
    ...{
      sensor: "inside the trailer",
      startC: high - 1,
      settleMin: between(dice, 25, 45),
      isOutsideRead: true,
    },
    outsideC: [
      [0, high - 2],
      [150, high],
      [420, high - 5],
    ],
    ownHeatC: between(dice, 4, 6),
    sunC: [
      [0, 0.3 * sunC],
      [between(dice, 120, 200), sunC],
      [330, 0.4 * sunC],
      [420, 0],
    ],
  };
}

const trailerBox: DayBooth["box"] = {
  ...{ widthM: 2, lengthM: 3.6, heightM: 2.1 },
  openings: [{ xM: 2, yM: 1.8, bearingDeg: 90, widthM: 1.8, heightM: 1, sillM: 0.9, overhang: null }],
  printer: { xM: 1.2, yM: 1.6, heightM: 1 },
};
