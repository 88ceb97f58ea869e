import type { SourceItem } from "../readings/source.ts";
import type { FileSeen } from "./folderFiles.ts";
import type { FolderSourceConfig } from "./folderSourceConfig.ts";
import { shortHash } from "./stateFile.ts";

/** A file that is not dealt with yet. Moments are of the agent's steady clock. */
export type Pending = FileSeen & {
  /** When it was there first; for one from before this start, when it was written. */
  readonly seenMonoMs: number;
  /** Since when size and time have stood still, as far as seen here. */
  readonly stillSinceMonoMs: number;
  /** When it was finished, as well as that is known. */
  readonly doneMonoMs: number;
};

/** A session worth telling, and the files that are dealt with once it is kept. */
export type FinishedSession = { readonly item: SourceItem; readonly files: readonly Pending[] };

/** The file after another look at it; one not seen before was written `ageMs` ago. */
export function follow(before: Pending | undefined, seen: FileSeen, monoMs: number, ageMs: number): Pending {
  if (!before) {
    const thenMonoMs = monoMs - Math.max(0, ageMs);
    return { ...seen, seenMonoMs: thenMonoMs, stillSinceMonoMs: monoMs, doneMonoMs: thenMonoMs };
  }
  if (before.bytes === seen.bytes && before.modifiedAtMs === seen.modifiedAtMs) return before;
  return { ...seen, seenMonoMs: before.seenMonoMs, stillSinceMonoMs: monoMs, doneMonoMs: monoMs };
}

/** The sessions that are over by now: each settled layout, or each group of settled shots whose gap has passed. */
export function finishedSessions(
  pending: readonly Pending[],
  config: FolderSourceConfig,
  monoMs: number,
): readonly FinishedSession[] {
  const large = pending.filter((file) => file.bytes >= config.leastBytes);
  const settled = large.filter((file) => monoMs - file.stillSinceMonoMs >= config.settleMs);
  if (config.holds === "layouts") {
    return settled
      .toSorted((a, b) => a.doneMonoMs - b.doneMonoMs)
      .map((layout) => ({ item: layoutItem(layout, config.path, monoMs), files: [layout] }));
  }
  const groups = groupShots(settled, config.gapMs);
  const isLate = (group: readonly Pending[]): boolean =>
    monoMs - (group.at(-1)?.seenMonoMs ?? monoMs) > config.gapMs;
  // While a shot is still being written it may belong to the last group.
  const isWriting = settled.length < large.length;
  return groups
    .filter((group) => isLate(group) && !(isWriting && group === groups.at(-1)))
    .map((group) => ({ item: groupItem(group, config.path, monoMs), files: group }));
}

/** Splits shots, in the order of their moments, where two are further apart than `gapMs`. */
export function groupShots<Shot extends { readonly seenMonoMs: number }>(
  shots: readonly Shot[],
  gapMs: number,
): readonly (readonly Shot[])[] {
  const groups: Shot[][] = [];
  for (const shot of shots.toSorted((a, b) => a.seenMonoMs - b.seenMonoMs)) {
    const last = groups.at(-1)?.at(-1);
    if (last && shot.seenMonoMs - last.seenMonoMs <= gapMs) groups.at(-1)?.push(shot);
    else groups.push([shot]);
  }
  return groups;
}

function layoutItem(layout: Pending, folder: string, monoMs: number): SourceItem {
  const session = { class: "fact", kind: "session", basis: "layouts" } as const;
  const sessionId = sessionIdOf(layout, folder);
  return {
    item: { ...session, sessionId, durationMs: null, layouts: 1, shots: null },
    agoMs: Math.max(0, monoMs - layout.doneMonoMs),
  };
}

function groupItem(group: readonly Pending[], folder: string, monoMs: number): SourceItem {
  const [first] = group;
  const last = group.at(-1);
  if (!first || !last) throw new RangeError("a group of no shots is no session");
  const session = { class: "fact", kind: "session", basis: "shots" } as const;
  const durationMs = last.seenMonoMs - first.seenMonoMs;
  const doneMonoMs = Math.max(...group.map((shot) => shot.doneMonoMs));
  return {
    item: {
      ...session,
      sessionId: sessionIdOf(first, folder),
      durationMs,
      layouts: null,
      shots: group.length,
    },
    agoMs: Math.max(0, monoMs - doneMonoMs),
  };
}

/** The same file gives the same session, so that one told twice can be told apart from two. */
function sessionIdOf({ name, modifiedAtMs }: FileSeen, folder: string): string {
  return shortHash(`${folder}/${name}/${modifiedAtMs}`);
}
