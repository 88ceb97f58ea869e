import type { PitchBasis, SessionBasis, StoredItem } from "@boothward/shared-types";

/** From `atMs` on a person wants sessions and pitches counted by these; null: by the best there is. */
export type AuthorityChange = {
  readonly atMs: number;
  readonly sessionsBy: SessionBasis | null;
  readonly pitchesBy: PitchBasis | null;
};

/** More than an owner changes in a season. */
const changesKept = 50;

/**
 * Two sources tell of one print or of one group of guests within this time: a layout is ready before its job is
 * done. Our own choice, the same as for a job that belongs to a session.
 */
export const sameDeedMs = 180_000;

/** Takes in what a person wants counted by. */
export function withAuthority(
  changes: readonly AuthorityChange[],
  { atMs, sessionsBy, pitchesBy }: Extract<StoredItem, { kind: "authority" }>,
): readonly AuthorityChange[] {
  return [...changes.slice(1 - changesKept), { atMs, sessionsBy, pitchesBy }];
}
