import type { Clock } from "@boothward/shared-types";
import type { Logger } from "pino";
import { setImmediate as everythingElse } from "node:timers/promises";
import type { PastEvening } from "./forecast/demand/demandInput.ts";
import { readPastEvenings, type EveningsRead } from "./pastEvenings.ts";
import type { Store } from "./store/openStore.ts";

/** Earlier evenings by kind, at hand for every step of every booth. */
export type KnownEvenings = {
  /**
   * Those of one kind as far as they are read, oldest first; none at first, while they are read in the
   * background. The same list until they change.
   */
  of(eventKind: string, isInvented: boolean): readonly PastEvening[];
  /** Those that closed before an instant, read now. */
  before(eventKind: string, isInvented: boolean, beforeAtMs: number): Promise<readonly PastEvening[]>;
  /** The plan changed, an evening may have ended, or facts of an evening came late: looks again in a while. */
  onChange(): void;
  /** Resolves when nothing is being read. */
  settled(): Promise<void>;
  close(): Promise<void>;
};

type Known = {
  readonly eventKind: string;
  readonly isInvented: boolean;
  evenings: readonly PastEvening[];
  /** When it was begun to be read; null: something has changed since. */
  readAtMs: number | null;
};

/** An evening's end is noticed by then at the latest; nobody waits for it. */
const goodForMs = 10 * 60_000;

const none: readonly PastEvening[] = [];

export function openKnownEvenings(options: {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
}): KnownEvenings {
  const { store, clock, log } = options;
  const read: EveningsRead = new Map();
  const known = new Map<string, Known>();
  let reading: Promise<void> | null = null;
  let isClosed = false;

  async function readOne(one: Known): Promise<void> {
    const beforeAtMs = clock().wallMs;
    one.readAtMs = beforeAtMs;
    const evenings = await readPastEvenings(store, { ...one, beforeAtMs }, read, breathe);
    if (JSON.stringify(evenings) !== JSON.stringify(one.evenings)) one.evenings = evenings;
  }

  /** Between two evenings everything else goes first; a dashboard that is being closed reads no further. */
  async function breathe(): Promise<void> {
    await everythingElse();
    if (isClosed) throw new Error("the dashboard is being closed");
  }

  async function readDue(): Promise<void> {
    for (const one of known.values()) if (isDue(one)) await readOne(one);
  }

  function isDue({ readAtMs }: Known): boolean {
    return readAtMs === null || Math.abs(clock().wallMs - readAtMs) >= goodForMs;
  }

  function begin(): void {
    if (isClosed) return;
    reading ??= readDue()
      .catch((error: unknown) => {
        if (!isClosed) log.error({ err: error }, "earlier evenings could not be read");
      })
      .finally(() => (reading = null));
  }

  return {
    of(eventKind, isInvented) {
      const key = JSON.stringify([eventKind, isInvented]);
      const one = known.get(key) ?? { eventKind, isInvented, evenings: none, readAtMs: null };
      known.set(key, one);
      if (isDue(one)) begin();
      return one.evenings;
    },
    before: (eventKind, isInvented, beforeAtMs) =>
      readPastEvenings(store, { eventKind, isInvented, beforeAtMs }, read, breathe),
    onChange() {
      for (const one of known.values()) one.readAtMs = null;
    },
    async settled() {
      while (reading !== null) await reading;
    },
    async close() {
      isClosed = true;
      await reading;
    },
  };
}
