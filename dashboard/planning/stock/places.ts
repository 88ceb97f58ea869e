/** Places of the ledger: those that hold rolls of the business, and those outside it. */
export const places = {
  store: "store",
  order: "order",
  used: "used",
  lost: "lost",
  unexplained: "unexplained",
  /** Where bought rolls come from. */
  supplier: "supplier",
} as const;

/** The case that goes with a booth. */
export function caseOf(boothId: string): string {
  return `case:${boothId}`;
}

/** The rolls that were loaded for one event. */
export function eventPlace(bookingId: string): string {
  return `event:${bookingId}`;
}

/** Whether rolls there can be printed on: in the store, in a case, at an event. */
export function isAtHand(place: string): boolean {
  return place === places.store || place.startsWith("case:") || place.startsWith("event:");
}

/** The booth or booking that a place names, by its kind. */
export function placeParts(place: string): { readonly kind: string; readonly id: string | null } {
  const at = place.indexOf(":");
  return at < 0 ? { kind: place, id: null } : { kind: place.slice(0, at), id: place.slice(at + 1) };
}
