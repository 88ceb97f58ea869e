type Stretch = { readonly fromAtMs: number; readonly toAtMs: number };

/** The shortest day by the clocks: where they go forward. */
const wholeDayMs = 23 * 3_600_000;

/** In the polar day a stretch of sun is as long as the day, and its clock times would say nothing. */
export function isSunAllDay(sun: readonly Stretch[]): boolean {
  return sun.some(({ fromAtMs, toAtMs }) => toAtMs - fromAtMs >= wholeDayMs);
}
