import type { CordSize } from "@boothward/shared-types";

/** What a flexible cord's conductors resist and carry. */
export type Cord = {
  /** One conductor, per metre. */
  readonly ohmPerM: number;
  /** Two loaded conductors, laid out, not on a reel. */
  readonly carriesA: number;
};

const metresPerFoot = 0.3048;

/** From ohms a thousand feet. */
const american = (ohmPer1000Ft: number, carriesA: number): Cord => ({
  ohmPerM: ohmPer1000Ft / 1000 / metresPerFoot,
  carriesA,
});

/** From ohms a kilometre. */
const metric = (ohmPerKm: number, carriesA: number): Cord => ({ ohmPerM: ohmPerKm / 1000, carriesA });

/**
 * Cords by their conductors.
 *
 * Source: American: resistance of stranded copper at 75 C from NEC chapter 9 table 8 (from memory), ampacity from NEC
 * table 400.5(A), column for two loaded conductors (10 AWG from memory). Metric: resistance at 20 C from IEC 60228
 * class 5, current from BS 7671 table 4F3A (both from memory); a warm cord resists up to a fifth more.
 */
export const cords: Readonly<Record<CordSize, Cord>> = {
  "18 AWG": american(7.95, 10),
  "16 AWG": american(4.99, 13),
  "14 AWG": american(3.14, 18),
  "12 AWG": american(1.98, 25),
  "10 AWG": american(1.24, 30),
  "0.75 mm2": metric(26, 6),
  "1 mm2": metric(19.5, 10),
  "1.5 mm2": metric(13.3, 16),
  "2.5 mm2": metric(7.98, 25),
  "4 mm2": metric(4.95, 32),
};
