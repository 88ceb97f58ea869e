import { dewPointC } from "./dewPoint.ts";

/** A printer or a case of media that was carried in: its own temperature, and the air it now stands in. */
export type CarriedIn = {
  readonly caseC: number;
  readonly airC: number;
  readonly humidityPct: number;
  readonly timeConstantMinutes: number;
};

/** `waitMinutes`: 0 when nothing sweats, null when it never dries in this air. */
export type CondensationWait = {
  readonly dewPointC: number;
  readonly isSweating: boolean;
  readonly waitMinutes: number | null;
};

/**
 * How fast a carried-in thing takes the room's temperature, when nobody has measured it: the minutes in which the
 * difference shrinks to 37 %. Estimated, no source: 15 kg at 700 J/(kg K) over 0.7 m2 at 8 W/(m2 K) gives 31 min
 * for a bare printer; a roll in its carton is slower. Both are rounded up, to wait rather longer.
 */
export const usualTimeConstantMinutes = { printer: 40, mediaInCarton: 90 } as const;

/** How far past the dew point a case should be before it is trusted: cheap sensors are off by about as much. */
const usualMarginC = 1;

/**
 * How long to wait before switching on what came in cold: until its case has passed the dew point of the air by a
 * margin.
 *
 * The case follows the air with one time constant: T(t) = air + (case - air) exp(-t / tau). Inside it is colder
 * for longer than on the case, so the wait is the least one, not a promise.
 */
export function condensationWait(carried: CarriedIn, marginC = usualMarginC): CondensationWait {
  const { caseC, airC, humidityPct, timeConstantMinutes } = carried;
  const dewC = dewPointC(airC, humidityPct);
  const dryC = dewC + marginC;
  const isSweating = caseC < dewC;
  if (caseC >= dryC) return { dewPointC: dewC, isSweating, waitMinutes: 0 };
  if (airC <= dryC) return { dewPointC: dewC, isSweating, waitMinutes: isSweating ? null : 0 };
  const waitMinutes = timeConstantMinutes * Math.log((airC - caseC) / (airC - dryC));
  return { dewPointC: dewC, isSweating, waitMinutes };
}
