import type { Role, StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";

/** What people did so that the booth is ready and can be helped: test alerts that arrived, lines that were ticked. */
export type Preparedness = {
  /** Oldest first. */
  readonly testsHeard: readonly TestHeard[];
  /** The last word on each line. */
  readonly checks: readonly CheckSaid[];
};

export type TestHeard = {
  readonly atMs: number;
  readonly role: Role;
  readonly way: string;
  readonly by: string;
};
export type CheckSaid = {
  readonly check: string;
  readonly isDone: boolean;
  readonly by: string;
  readonly atMs: number;
};

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/** More than a crew sends in a season. */
const testsKept = 100;

/** More lines than any list has: a name that nobody ticks any more may go. */
const checksKept = 200;

export const unprepared: Preparedness = { testsHeard: [], checks: [] };

/** Takes in that a test alert came to a person's device. */
export function foldTestHeard(prepared: Preparedness, item: ItemOf<"testHeard">): Preparedness {
  const { atMs, role, way, by } = item;
  return {
    ...prepared,
    testsHeard: [...prepared.testsHeard.slice(1 - testsKept), { atMs, role, way, by }],
  };
}

/** Takes in that a line was ticked, or the tick taken off. */
export function foldCheck(prepared: Preparedness, item: ItemOf<"check">): Preparedness {
  const { check, isDone, by, atMs } = item;
  const checks = withEntry(prepared.checks, (each) => each.check, { check, isDone, by, atMs });
  const oldest = Math.min(...checks.map((each) => each.atMs));
  return {
    ...prepared,
    checks: checks.length <= checksKept ? checks : checks.filter((each) => each.atMs > oldest),
  };
}
