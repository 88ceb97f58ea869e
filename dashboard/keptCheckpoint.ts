import type { StoredItem } from "@boothward/shared-types";
import * as z from "zod";
import { emptyBooth, type BoothState } from "./booth/boothState.ts";
import type { Checkpoint, Timeline } from "./booth/timeline.ts";
import type { Store } from "./store/openStore.ts";

/** Backlogs of a booth that was cut off for less than this leave the kept state as it is. */
const behindMs = 6 * 3_600_000;

/** It is written anew when it has fallen so far behind. */
const everyMs = 2 * 3_600_000;

/**
 * The state of a booth of some hours ago, kept on disk so that a start folds the hours since and not a season.
 * It is a memo: an item that is older takes it out, and so does another build of the program.
 */
export type KeptCheckpoint = {
  /** What was kept; null: everything is to be folded. */
  read(): Promise<Checkpoint | null>;
  /** Items that are on disk; some may be older than what was kept in that moment. */
  onStored(items: readonly StoredItem[]): void;
  /** Keeps a checkpoint of the timeline if there is one far enough ahead of the last. */
  keepFrom(timeline: Timeline): Promise<void>;
};

export function keptCheckpoint(options: {
  readonly store: Pick<Store, "checkpoints">;
  readonly boothId: string;
  /** Names the program's build; null: it runs from source, which may change any moment, and nothing is kept. */
  readonly build: string | null;
}): KeptCheckpoint {
  const { store, boothId, build } = options;
  const names = Object.keys(emptyBooth(boothId));
  const body = z.custom<BoothState>((value) => isObject(value) && names.every((name) => name in value));
  let keptFromAtMs = -Infinity;
  let forgetting: Promise<void> = Promise.resolve();

  return {
    async read() {
      await forgetting;
      const row = build === null ? null : await store.checkpoints.of(boothId, build);
      const state = row === null ? null : body.safeParse(JSON.parse(row.body));
      keptFromAtMs = row !== null && state?.success === true ? row.fromAtMs : -Infinity;
      return state?.success === true ? { fromAtMs: keptFromAtMs, state: state.data } : null;
    },
    onStored(items) {
      const earliest = items.reduce((least, { atMs }) => Math.min(least, atMs), Infinity);
      if (earliest >= keptFromAtMs) return;
      keptFromAtMs = -Infinity;
      forgetting = forgetting.then(() => store.checkpoints.forget(boothId, earliest));
    },
    async keepFrom({ state, checkpoints }) {
      const behindAtMs = (state.headAtMs ?? -Infinity) - behindMs;
      const behind = checkpoints.findLast(({ fromAtMs }) => fromAtMs <= behindAtMs);
      // After a pause of days there may be none so old; the oldest is better than none.
      const last = behind ?? (keptFromAtMs === -Infinity ? checkpoints[0] : undefined);
      if (build === null || last === undefined || last.fromAtMs < keptFromAtMs + everyMs) return;
      await forgetting;
      keptFromAtMs = last.fromAtMs;
      await store.checkpoints.keep({
        ...{ boothId, fromAtMs: last.fromAtMs, build, body: JSON.stringify(last.state) },
      });
    },
  };
}

function isObject(value: unknown): value is object {
  return typeof value === "object" && value !== null;
}
