import { between, noise, pick, type Dice } from "../../../seeds/dice.ts";
import { sunAt, type Place } from "../../../dashboard/forecast/sun/sunPosition.ts";

/** What a sky does to a building at an instant: beam at right angles to the sun, diffuse on level ground, W/m2. */
export type SkyNow = {
  readonly beamWm2: number;
  readonly diffuseWm2: number;
  readonly azimuthDeg: number;
  readonly elevationDeg: number;
  readonly outsideC: number;
  readonly windMs: number;
};

/** How a day's weather is. `cloudy`: how often the sky is not clear. */
export type Weather = {
  readonly highC: number;
  readonly rangeC: number;
  readonly cloudy: number;
  readonly windMs: number;
};

type Cloud = "clear" | "broken" | "covered";
const meanStayMin: Readonly<Record<Cloud, number>> = { clear: 70, broken: 50, covered: 60 };

/** A sky that is stepped through minute by minute: clouds by a Markov chain, wind and air mass by slow noise. */
export function openSky(
  place: Place,
  { highC, rangeC, cloudy, windMs }: Weather,
  dice: Dice,
): (atMs: number) => SkyNow {
  let cloud: Cloud = dice() < cloudy ? "broken" : "clear";
  let [lets, gust, mass] = [1, 0, noise(dice, 0.6)];
  const hazy = between(dice, 0.62, 0.75);
  const latest = between(dice, 14, 16);
  return (atMs) => {
    if (dice() < 1 / meanStayMin[cloud]) cloud = nextCloud(cloudy, dice);
    lets += (targetOf(cloud, dice) - lets) / between(dice, 2, 8);
    gust += -gust / 15 + noise(dice, 0.12);
    mass += -mass / 400 + noise(dice, 0.03);
    const { azimuthDeg, elevationDeg } = sunAt(place, atMs);
    const solarHour = (((atMs / 3_600_000 + place.longitudeDeg / 15) % 24) + 24) % 24;
    // Steeper in the morning than in the evening, as days are.
    const phase = ((solarHour - latest + 36) % 24) - 12;
    const swing = Math.cos((Math.PI * phase) / (phase < 0 ? 10 : 14));
    return {
      ...{ azimuthDeg, elevationDeg },
      beamWm2: beamThrough(elevationDeg, hazy) * Math.max(0, Math.min(1, lets)),
      diffuseWm2: elevationDeg > 0 ? (60 + 140 * (1 - lets)) * Math.sqrt(Math.sin(rad(elevationDeg))) : 0,
      outsideC: highC - (rangeC / 2) * (1 - swing) + mass - 1.2 * (1 - lets),
      windMs: Math.max(0.2, windMs * Math.exp(gust)),
    };
  };
}

function nextCloud(cloudy: number, dice: Dice): Cloud {
  return pick(dice, [
    ["clear", 1 - cloudy],
    ["broken", cloudy],
    ["covered", cloudy * 0.7],
  ] as const);
}

/** Share of the beam that a cloud lets through; broken clouds come and go. */
function targetOf(cloud: Cloud, dice: Dice): number {
  if (cloud === "clear") return 1;
  return cloud === "covered" ? 0.08 : dice() < 0.5 ? 0.95 : 0.2;
}

/** **Source:** Meinel and Meinel, Applied Solar Energy (1976): 1353 x 0.7 ^ (air mass ^ 0.678), here with haze. */
function beamThrough(elevationDeg: number, clearness: number): number {
  if (elevationDeg <= 0.5) return 0;
  return 1353 * clearness ** ((1 / Math.sin(rad(elevationDeg))) ** 0.678);
}

export function rad(deg: number): number {
  return (deg * Math.PI) / 180;
}
