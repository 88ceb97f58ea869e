import type { PlaceStock, StockMove } from "@boothward/shared-types/stock";
import { effectiveMoves } from "./effectiveMoves.ts";
import { putPartial, takePartial } from "./partRolls.ts";
import { isAtHand, places } from "./places.ts";

/** Where every roll is that was ever bought. */
export type StockNow = {
  /** Places that hold rolls, or should; those where all is gone are left out. */
  readonly places: readonly PlaceStock[];
  /** Full rolls bought, those on order too; where they went is in the places, `used`, `lost` and `unexplained`. */
  readonly bought: number;
  readonly used: number;
  readonly lost: number;
  /** Found missing at counts; below 0: found over. */
  readonly unexplained: number;
  /** Full rolls that each count found over (below 0: short), by the count's id. */
  readonly found: ReadonlyMap<string, number>;
  /** Every place of the ledger, those outside too: in each unit they add up to nothing. */
  readonly balances: readonly PlaceStock[];
};

type Balances = Map<string, PlaceStock>;

/**
 * Stock after these moves, in whatever order they come. Each move takes from one place what it gives to another,
 * so no roll is lost by reckoning; what was taken back is as if it had never been.
 *
 * A count says what is at its place, whatever the ledger had there: the difference comes from or goes to
 * `unexplained`. It is worked out anew each time, so that a move told late changes what the count found, and
 * not what is there.
 */
export function stockOf(moves: readonly StockMove[]): StockNow {
  const balances: Balances = new Map();
  const found = new Map<string, number>();
  for (const move of effectiveMoves(moves)) {
    if (move.counted === null) transfer(balances, move);
    else found.set(move.moveId, settle(balances, move, move.counted));
  }
  const all = [...balances.values()];
  const fullAt = (place: string) => balances.get(place)?.fullRolls ?? 0;
  return {
    places: all.filter(holdsOrOwes).sort(byPlace),
    bought: 0 - fullAt(places.supplier),
    used: fullAt(places.used),
    lost: fullAt(places.lost),
    unexplained: fullAt(places.unexplained),
    found,
    balances: all,
  };
}

/** What is at one place after these moves. */
export function stockAt({ balances }: StockNow, place: string): PlaceStock {
  return balances.find((each) => each.place === place) ?? emptyPlace(place);
}

function transfer(balances: Balances, { fromPlace, toPlace, rolls, partialSheets }: StockMove): void {
  const from = at(balances, fromPlace);
  balances.set(fromPlace, {
    ...from,
    fullRolls: from.fullRolls - rolls,
    ...copied(partialSheets === null ? from : takePartial(from, partialSheets)),
  });
  const to = at(balances, toPlace);
  balances.set(toPlace, {
    ...to,
    fullRolls: to.fullRolls + rolls,
    ...copied(partialSheets === null ? to : putPartial(to, partialSheets)),
  });
}

/** Sets a place to what was counted; gives the full rolls found over. */
function settle(
  balances: Balances,
  { fromPlace, toPlace }: StockMove,
  counted: { readonly fullRolls: number; readonly partials: readonly number[] },
): number {
  const before = at(balances, toPlace);
  const other = at(balances, fromPlace);
  const over = counted.fullRolls - before.fullRolls;
  // What was here and is no more goes there, what is here and was not comes from there.
  const gone = [...before.partials, ...before.missing.map((sheets) => -sheets)];
  let parts = { partials: other.partials, missing: other.missing } as Pick<
    PlaceStock,
    "partials" | "missing"
  >;
  for (const sheets of gone)
    parts = copied(sheets > 0 ? putPartial(parts, sheets) : takePartial(parts, -sheets));
  for (const sheets of counted.partials) parts = copied(takePartial(parts, sheets));
  balances.set(fromPlace, { ...other, fullRolls: other.fullRolls - over, ...parts });
  balances.set(toPlace, {
    place: toPlace,
    fullRolls: counted.fullRolls,
    partials: [...counted.partials].sort((a, b) => b - a),
    missing: [],
  });
  return over;
}

function at(balances: Balances, place: string): PlaceStock {
  return balances.get(place) ?? emptyPlace(place);
}

function emptyPlace(place: string): PlaceStock {
  return { place, fullRolls: 0, partials: [], missing: [] };
}

function copied({ partials, missing }: { partials: readonly number[]; missing: readonly number[] }) {
  return { partials: [...partials], missing: [...missing] };
}

function holdsOrOwes({ place, fullRolls, partials, missing }: PlaceStock): boolean {
  if (place === places.store) return true;
  return (
    (isAtHand(place) || place === places.order) && (fullRolls !== 0 || partials.length + missing.length > 0)
  );
}

/** The store first, then cases, events, and what is on order. */
function byPlace(a: PlaceStock, b: PlaceStock): number {
  const rank = ({ place }: PlaceStock) =>
    place === places.store ? 0 : place.startsWith("case:") ? 1 : place.startsWith("event:") ? 2 : 3;
  return rank(a) - rank(b) || (a.place < b.place ? -1 : 1);
}
