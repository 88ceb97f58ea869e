/** Constants of the Magnus formula: saturation pressure over water is about exp(b T / (c + T)), T in C. */
export type MagnusSet = { readonly b: number; readonly c: number };

/** Source: Sonntag 1990, as in the World Meteorological Organization's guide (WMO-No. 8). The set in use here. */
export const sonntag: MagnusSet = { b: 17.62, c: 243.12 };

/** Source: Alduchov and Eskridge 1996. Within 0.05 C of Sonntag's between 0 and 50 C, so that either will do. */
export const alduchovEskridge: MagnusSet = { b: 17.625, c: 243.04 };

/** Air without any water has no dew point: hygrometers that say less than this are not believed to the digit. */
const driestPct = 0.1;

/** Temperature at which air of a relative humidity begins to leave water on what it touches, C. */
export function dewPointC(airC: number, humidityPct: number, { b, c }: MagnusSet = sonntag): number {
  const humidity = Math.min(100, Math.max(driestPct, humidityPct));
  const gamma = Math.log(humidity / 100) + (b * airC) / (c + airC);
  return (c * gamma) / (b - gamma);
}

/** Relative humidity of air with a dew point, %. */
export function humidityPctOf(airC: number, dewC: number, { b, c }: MagnusSet = sonntag): number {
  return 100 * Math.exp((b * dewC) / (c + dewC) - (b * airC) / (c + airC));
}
