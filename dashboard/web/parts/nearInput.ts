import type { StripInput } from "./stripShape.ts";

/** What of the past stands beside what is to come, ms. */
const pastMs = 30 * 60_000;

/** The evening from now on in large: little paper left is too small to read beside a full roll. */
export function nearInput(input: StripInput): StripInput {
  const fromAtMs = Math.max(input.openAtMs, input.knownAtMs - pastMs);
  const before = input.past.findLast((point) => point.atMs <= fromAtMs);
  const past = [
    ...(before === undefined ? [] : [{ ...before, atMs: fromAtMs }]),
    ...input.past.filter((point) => point.atMs > fromAtMs),
  ];
  const highest = Math.max(
    1,
    ...past.map((point) => point.sheetsLeft),
    ...input.fan.map((point) => point.p90),
  );
  return { ...input, openAtMs: fromAtMs, fromAtMs, past, topSheets: highest };
}

/** Whether what is left is small enough beside a full roll to be looked at in large. */
export function isSmall({ sheetsLeft, kitSheets, past }: StripInput): boolean {
  const highest = Math.max(kitSheets, ...past.map((point) => point.sheetsLeft));
  return sheetsLeft !== null && sheetsLeft > 0 && sheetsLeft < highest * 0.4;
}
