import type { ReplayAsk, ReplaySummary } from "@boothward/shared-types";

/** When the first roll came to its end. */
export type RollEnd = NonNullable<ReplaySummary["rollEnd"]>;

/** The alert about paper is raised under this chance that the roll lasts. */
const warnedUnder = 0.35;

/** A warning that comes later than this leaves no time to fetch a roll in peace. */
const inTimeMs = 15 * 60_000;

/** What the asks of an evening were worth, beside what was true; null `rollEnd`: the roll lasted. */
export function replaySummaryOf(asks: readonly ReplayAsk[], rollEnd: RollEnd | null): ReplaySummary {
  const banded = asks.flatMap(({ demandToEnd, usedToEnd }) =>
    demandToEnd === null ? [] : [demandToEnd.p10 <= usedToEnd && usedToEnd <= demandToEnd.p90],
  );
  // Once another roll is loaded, its warnings are about that one.
  const onFirst = asks.filter(({ atMs }) => rollEnd === null || atMs <= rollEnd.atMs);
  const known = onFirst.flatMap(({ atMs, lastsChance }) =>
    lastsChance === null ? [] : [{ atMs, lastsChance }],
  );
  const warnedAtMs = known.find(({ lastsChance }) => lastsChance < warnedUnder)?.atMs ?? null;
  const aheadMs = rollEnd === null || warnedAtMs === null ? null : rollEnd.atMs - warnedAtMs;
  return {
    asks: banded.length,
    heldShare: banded.length === 0 ? null : banded.filter((held) => held).length / banded.length,
    ...{ warnedAtMs, rollEnd, aheadMs },
    verdict: known.length === 0 ? "unknown" : verdictOf(rollEnd, warnedAtMs, aheadMs),
  };
}

function verdictOf(
  rollEnd: RollEnd | null,
  warnedAtMs: number | null,
  aheadMs: number | null,
): ReplaySummary["verdict"] {
  if (rollEnd === null) return warnedAtMs === null ? "lasted" : "warnedInVain";
  if (aheadMs === null) return "missed";
  return aheadMs >= inTimeMs ? "warned" : "warnedLate";
}
