import type { Units } from "../../alerts/format.ts";

const metresPerFoot = 0.3048;

/** The sign of lengths in the reader's units. */
export function lengthSign(units: Units): string {
  return units === "us" ? "ft" : "m";
}

/** A length in metres as the reader's figure, to a centimetre or a hundredth of a foot. */
export function shownLength(metres: number, units: Units): number {
  return Math.round((units === "us" ? metres / metresPerFoot : metres) * 100) / 100;
}

/** The metres of a figure in the reader's units, to a millimetre. */
export function metresOf(shown: number, units: Units): number {
  return Math.round((units === "us" ? shown * metresPerFoot : shown) * 1000) / 1000;
}

/** "1.2 m", "3.9 ft". */
export function lengthText(metres: number, units: Units): string {
  const shown = units === "us" ? metres / metresPerFoot : metres;
  return `${Number(shown.toFixed(1))}\u00a0${lengthSign(units)}`;
}
