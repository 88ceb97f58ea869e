import type { Booking, StockMove } from "@boothward/shared-types";
import { bookingWindows } from "./booth/bookingWindows.ts";
import type { KnownBooth } from "./boothsAtWork.ts";
import { movesFromFacts, type RollWindow } from "./planning/stock/movesFromFacts.ts";
import { eventPlace } from "./planning/stock/places.ts";
import type { Store } from "./store/openStore.ts";

/** What each window gave when it was last read, and what it was read from. */
type WindowsRead = Map<string, { readonly mark: string; readonly moves: readonly StockMove[] }>;

/**
 * Moves of rolls at all booths from what was said and seen there, one window of the run sheet after the other.
 * A window is read again only when its facts, its plan or what was taken back have changed.
 */
export function openRollMoves(options: {
  readonly store: Store;
  readonly knownOf: (boothId: string) => KnownBooth | null;
}): (written: readonly StockMove[], atMs: number) => Promise<StockMove[]> {
  const { store, knownOf } = options;
  const read: WindowsRead = new Map();

  async function ofBooth(known: KnownBooth, loaded: ReadonlySet<string>, atMs: number): Promise<StockMove[]> {
    const { boothId } = known.settings;
    const takings = await store.boothItems.takings(boothId);
    const windows = bookingWindows(known.bookings, known.state).filter(({ fromAtMs }) => fromAtMs <= atMs);
    const moves: StockMove[] = [];
    for (const [at, { booking, fromAtMs, toAtMs }] of windows.entries()) {
      // What the booth had on before tells what a meter's jump means: the window before is folded too.
      const stretch = { fromAtMs: windows[at - 1]?.fromAtMs ?? -Infinity, toAtMs };
      const window = windowOf(booking, { fromAtMs, toAtMs }, loaded);
      const key = `${boothId} ${fromAtMs}`;
      const facts = await store.boothItems.markBetween(boothId, stretch);
      const mark = JSON.stringify([facts, window, stretch, known.settings.kitSheets, takings.length]);
      let found = read.get(key);
      if (found?.mark !== mark) {
        const items = await store.boothItems.factsBetween(boothId, stretch);
        found = { mark, moves: movesFromFacts(withTakings(items, takings), known.settings, window) };
        read.set(key, found);
      }
      moves.push(...found.moves);
    }
    return moves;
  }

  return async (written, atMs) => {
    const loaded = new Set(written.flatMap(({ fromPlace, toPlace }) => [fromPlace, toPlace]));
    const moves: StockMove[] = [];
    for (const { boothId } of await store.booths.all()) {
      const known = knownOf(boothId);
      if (known !== null) moves.push(...(await ofBooth(known, loaded, atMs)));
    }
    return moves;
  };
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
