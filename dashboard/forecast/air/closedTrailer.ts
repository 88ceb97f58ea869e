/** One-capacity fit to the measured rises: it leaves 0.72 F rms over the six published figures. */
const tauMinutes = 19;
const riseC = 44.1 / 1.8;

/**
 * How far the air in a closed vehicle rises above that outside within minutes of standing in the sun, C: about 10 in
 * ten minutes. A trailer is larger and often lighter in colour: a figure to warn people with, not one to run by.
 *
 * Source: fitted to Null 2003 and McLaren, Null and Quinn, Pediatrics 2005 (parked cars; a window ajar barely helps).
 */
export function closedVehicleRiseC(minutesInSun: number): number {
  return riseC * (1 - Math.exp(-Math.max(0, minutesInSun) / tauMinutes));
}
