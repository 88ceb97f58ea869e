import { seededDice } from "../../../seeds/dice.ts";
import { drawBooth } from "./drawBooth.ts";
import { eveningOf } from "./drawEvening.ts";
import type { Evening } from "./evening.ts";
import { furnished } from "./everyday.ts";
import { onBattery, peerGone, withIncident, withOverlay, withTruth, type Drawn } from "./troubles.ts";

const openMin = 20;
const closeMin = 130;
const seed = 77;

const mainsAway = { fromMin: 42, toMin: 64 };
const asleep = { fromMin: 68, toMin: 74 };
const cutOff = { fromMin: 79, toMin: 90 };

/**
 * Two hours in a trailer in which nearly everything happens, one after the other: a jam, the mains away, the camera
 * asleep, the booth cut off, heat, and an only roll that ends before the close.
 */
export function shortEvening(): Evening {
  const plain = drawBooth(seededDice(seed, "evening"), "trailer");
  const drawn: Drawn = {
    booth: {
      ...plain,
      booking: { ...plain.booking, openMin, closeMin, sheetsLoaded: 34, spareRolls: 0 },
      guests: { ...plain.guests, perHour: [[openMin, 26]] },
      prints: { ...plain.prints, pitchesACopy: 1, copies: [[1, 1]] },
      meter: { kind: "sheets" },
      air: { ...plain.air, ...heat },
    },
    ...{ overlays: [furnished(openMin)], silences: [cutOff], truths: [], headingDeg: 270 },
  };
  const troubles: ((before: Drawn) => Drawn)[] = [
    (before) => withIncident(before, { kind: "jam", atMin: 30, forMin: 6 }),
    (before) =>
      withOverlay(
        before,
        onBattery(mainsAway, (min) => Math.round(90 - min)),
      ),
    (before) => withTruth(before, { ...mainsAway, matter: "onBattery", severity: "plan" }),
    (before) => withOverlay(before, peerGone("camera", asleep)),
    (before) => withTruth(before, { ...asleep, matter: "cameraGone", severity: "actNow" }),
    (before) => withTruth(before, { ...cutOff, matter: "agentSilent", severity: "actNow" }),
  ];
  return eveningOf(
    troubles.reduce((before, happens) => happens(before), drawn),
    {
      kind: "trailer",
      seed,
      troubles: ["jam", "on battery", "camera gone", "agent silent", "heat", "paper"],
    },
  );
}

/** Over the limit of 40 C some twenty minutes before the close, shade or not. */
const heat: Partial<Evening["booth"]["air"]> = {
  ...{ startC: 31, ownHeatC: 5, settleMin: 20 },
  outsideC: [
    [0, 27],
    [70, 31],
    [130, 40],
  ],
  sunC: [[0, 0]],
};
