import { bearingOf, turnDeg } from "./bearing.ts";
import { sunAt, type Place } from "./sunPosition.ts";

/** What a person saw: where the shadow of something upright fell, clockwise from the booth's heading. */
export type ShadowSeen = { readonly atMs: number; readonly shadowDeg: number };

/** `slackDegPerMinute`: how far off the heading is for each minute that the clock was wrong. */
export type ShadowHeading =
  | { readonly headingDeg: number; readonly slackDegPerMinute: number }
  | { readonly refused: "sunDown" | "sunTooHigh" };

/** With the sun this high a two-metre pole casts half a metre of shadow: too short to take a direction from. */
const tooHighDeg = 75;

/** The booth's heading from true north, from a shadow at a known time. */
export function headingFromShadow(place: Place, { atMs, shadowDeg }: ShadowSeen): ShadowHeading {
  const { azimuthDeg, elevationDeg } = sunAt(place, atMs);
  if (elevationDeg <= 0) return { refused: "sunDown" };
  if (elevationDeg > tooHighDeg) return { refused: "sunTooHigh" };
  const nextMinute = sunAt(place, atMs + 60_000).azimuthDeg;
  return {
    headingDeg: bearingOf(azimuthDeg + 180 - shadowDeg),
    slackDegPerMinute: Math.abs(turnDeg(azimuthDeg, nextMinute)),
  };
}

/** A heading from true north from one by a compass; the declination of the place is positive to the east. */
export function headingFromMagnetic(magneticDeg: number, declinationDeg: number): number {
  return bearingOf(magneticDeg + declinationDeg);
}
