import { heatCategory, heatIndexC, type HeatCategory } from "./heatIndex.ts";

/** The air where people stand. `isInSun`: the sun falls on them; `isClosed`: a trailer with doors and hatches shut. */
export type AirForPeople = {
  readonly insideC: number;
  readonly humidityPct: number;
  readonly isInSun: boolean;
  readonly isClosed: boolean;
};

/** What must be said beside the figure, in words of code. */
export type HeatCaution = "notASafetyDevice" | "dangerForPeople" | "closedTrailer";

/** `feelsC` is the worst it may feel: the heat index, and in the sun what full sun can add to it. */
export type HeatForPeople = {
  readonly heatIndexC: number;
  readonly feelsC: number;
  readonly category: HeatCategory | null;
  readonly cautions: readonly HeatCaution[];
};

/** Source: NWS: the heat index is for shade and light wind; full sun can add up to 15 F. */
const fullSunAddsC = 15 / 1.8;

/**
 * What the heat in a booth means for people. The printer's limit is no limit for them: from a heat index of 103 F
 * (39.4 C) on it is dangerous, whatever the printer stands.
 *
 * Advice from one thermometer, never a safety device: a person who feels unwell, local rules and emergency services
 * come before it, and nobody, above all no child or animal, stays in a closed trailer in the sun.
 */
export function heatForPeople({ insideC, humidityPct, isInSun, isClosed }: AirForPeople): HeatForPeople {
  const indexC = heatIndexC(insideC, humidityPct);
  const feelsC = isInSun ? indexC + fullSunAddsC : indexC;
  const category = heatCategory(feelsC);
  const cautions: HeatCaution[] = ["notASafetyDevice"];
  if (category === "danger" || category === "extremeDanger") cautions.push("dangerForPeople");
  if (isClosed) cautions.push("closedTrailer");
  return { heatIndexC: indexC, feelsC, category, cautions };
}
