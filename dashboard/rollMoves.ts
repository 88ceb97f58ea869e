import type { Booking, StockMove, StoredItem } from "@boothward/shared-types";
import { setImmediate as everythingElse } from "node:timers/promises";
import { bookingWindows } from "./booth/bookingWindows.ts";
import type { KnownBooth } from "./boothsAtWork.ts";
import { movesFromFacts, type RollWindow } from "./planning/stock/movesFromFacts.ts";
import { eventPlace } from "./planning/stock/places.ts";
import type { Store } from "./store/openStore.ts";

type Stretch = { readonly fromAtMs: number; readonly toAtMs: number };

/** What each window gave when it was last read, and the plan it was read by. */
type WindowsRead = Map<string, WindowRead>;
type WindowRead = {
  readonly mark: string;
  readonly toAtMs: number;
  readonly moves: Promise<readonly StockMove[]>;
};

/** Moves of rolls at all booths, from what was said and seen there. */
export type RollMoves = {
  readonly of: (written: readonly StockMove[], atMs: number) => Promise<StockMove[]>;
  /** Items of a booth that are on disk now: what they may change is read again. */
  readonly onStored: (boothId: string, items: readonly StoredItem[]) => void;
  /** What is being read is not read to its end. */
  close(): void;
};

/**
 * Moves of rolls, one window of the run sheet after the other. A window is read again only when facts of it, its plan
 * or what was taken back have changed; between two that are read everything else goes first.
 */
export function openRollMoves(options: {
  readonly store: Store;
  readonly knownOf: (boothId: string) => KnownBooth | null;
}): RollMoves {
  const { store, knownOf } = options;
  let isClosed = false;
  const byBooth = new Map<string, WindowsRead>();

  function readOf(boothId: string): WindowsRead {
    const read = byBooth.get(boothId) ?? new Map<string, never>();
    byBooth.set(boothId, read);
    return read;
  }

  async function ofBooth(known: KnownBooth, loaded: ReadonlySet<string>, atMs: number): Promise<StockMove[]> {
    const windows = bookingWindows(known.bookings, known.state).filter(({ fromAtMs }) => fromAtMs <= atMs);
    const moves: StockMove[] = [];
    const takings = once(() => store.boothItems.takings(known.settings.boothId));
    for (const [at, { booking, fromAtMs, toAtMs }] of windows.entries()) {
      // What the booth had on before tells what a meter's jump means: the window before is folded too.
      const stretch = { fromAtMs: windows[at - 1]?.fromAtMs ?? -Infinity, toAtMs };
      const window = windowOf(booking, { fromAtMs, toAtMs }, loaded);
      moves.push(...(await ofWindow(known, window, stretch, takings)));
    }
    return moves;
  }

  async function ofWindow(
    { settings }: KnownBooth,
    window: RollWindow,
    stretch: Stretch,
    takings: () => Promise<StoredItem[]>,
  ): Promise<readonly StockMove[]> {
    const read = readOf(settings.boothId);
    const mark = JSON.stringify([window, stretch, settings.kitSheets]);
    const key = String(window.fromAtMs);
    const found = read.get(key);
    if (found?.mark === mark) return found.moves;
    const moves = readWindow(settings, window, stretch, takings);
    read.set(key, { mark, toAtMs: window.toAtMs, moves });
    moves.catch(() => read.delete(key));
    return moves;
  }

  async function readWindow(
    settings: KnownBooth["settings"],
    window: RollWindow,
    stretch: Stretch,
    takings: () => Promise<StoredItem[]>,
  ): Promise<readonly StockMove[]> {
    await everythingElse();
    if (isClosed) throw new Error("the dashboard is being closed");
    const items = await store.boothItems.factsBetween(settings.boothId, stretch);
    return movesFromFacts(withTakings(items, await takings()), settings, window);
  }

  async function of(written: readonly StockMove[], atMs: number): Promise<StockMove[]> {
    const loaded = new Set(written.flatMap(({ fromPlace, toPlace }) => [fromPlace, toPlace]));
    const moves: StockMove[] = [];
    for (const { boothId } of await store.booths.all()) {
      const known = knownOf(boothId);
      if (known !== null) moves.push(...(await ofBooth(known, loaded, atMs)));
    }
    return moves;
  }

  return {
    of,
    close() {
      isClosed = true;
    },
    onStored(boothId, items) {
      const facts = items.filter((item) => item.class === "fact");
      if (facts.some(({ kind }) => kind === "takenBack")) byBooth.delete(boothId);
      const earliest = facts.reduce((least, { atMs }) => Math.min(least, atMs), Infinity);
      const read = byBooth.get(boothId) ?? new Map<string, never>();
      for (const [key, { toAtMs }] of read) if (toAtMs > earliest) read.delete(key);
    },
  };
}

function once<T>(ask: () => Promise<T>): () => Promise<T> {
  let asked: Promise<T> | null = null;
  return () => (asked ??= ask());
}

function windowOf(
  booking: Booking | null,
  stretch: Pick<RollWindow, "fromAtMs" | "toAtMs">,
  loaded: ReadonlySet<string>,
): RollWindow {
  const bookingId = booking?.bookingId ?? null;
  const hasOwnRolls = bookingId !== null && loaded.has(eventPlace(bookingId));
  return { ...stretch, bookingId, hasOwnRolls };
}

/** The facts with every taking back, each once: a word may be taken back long after its own time. */
function withTakings<Item extends { readonly bootId: string; readonly seq: number }>(
  items: readonly Item[],
  takings: readonly Item[],
): Item[] {
  const known = new Set(items.map(({ bootId, seq }) => `${seq} ${bootId}`));
  return [...items, ...takings.filter(({ bootId, seq }) => !known.has(`${seq} ${bootId}`))];
}
