/**
 * How hot air feels to a person at rest in the shade, C, from its temperature and relative humidity.
 *
 * Source: US National Weather Service, Weather Prediction Center, "The heat index equation": Steadman's simple
 * formula averaged with the temperature; from 80 F on Rothfusz's regression (SR 90-23, 1990) with its two
 * adjustments. Within 1.3 F of Steadman's tables.
 */
export function heatIndexC(airC: number, humidityPct: number): number {
  return celsiusOf(heatIndexF(airC * 1.8 + 32, humidityPct));
}

/** The same in the formula's own unit, F. */
export function heatIndexF(airF: number, humidityPct: number): number {
  const simpleF = 0.5 * (airF + 61 + (airF - 68) * 1.2 + humidityPct * 0.094);
  const averageF = (simpleF + airF) / 2;
  if (averageF < 80) return averageF;
  return rothfuszF(airF, humidityPct) + adjustmentF(airF, humidityPct);
}

/** What a heat index means for people, by the National Weather Service; null below all of them. */
export type HeatCategory = "caution" | "extremeCaution" | "danger" | "extremeDanger";

/** Where each category begins, F. Source: NWS, "Heat index chart" (80, 90, 103 and 125). */
const categoryFromF: readonly (readonly [number, HeatCategory])[] = [
  [125, "extremeDanger"],
  [103, "danger"],
  [90, "extremeCaution"],
  [80, "caution"],
];

export function heatCategory(indexC: number): HeatCategory | null {
  // A limit in F becomes a binary fraction in C and back: a billionth of a degree is no difference.
  const indexF = indexC * 1.8 + 32 + 1e-9;
  return categoryFromF.find(([fromF]) => indexF >= fromF)?.[1] ?? null;
}

function rothfuszF(t: number, r: number): number {
  return (
    -42.379 +
    2.04901523 * t +
    10.14333127 * r -
    0.22475541 * t * r -
    0.00683783 * t * t -
    0.05481717 * r * r +
    0.00122874 * t * t * r +
    0.00085282 * t * r * r -
    0.00000199 * t * t * r * r
  );
}

function adjustmentF(t: number, r: number): number {
  if (r < 13 && t >= 80 && t <= 112) return (-(13 - r) / 4) * Math.sqrt((17 - Math.abs(t - 95)) / 17);
  if (r > 85 && t >= 80 && t <= 87) return ((r - 85) / 10) * ((87 - t) / 5);
  return 0;
}

function celsiusOf(deg: number): number {
  return (deg - 32) / 1.8;
}
