import type { StoredItem } from "@boothward/shared-types";
import { isPersons, type FactName, type PersonsWord } from "./personsWords.ts";

/** A word that takes back another. Both by the boot and number of their facts. */
export type Taking = { readonly name: FactName; readonly takes: FactName };

/** The key of a fact's name. */
export function nameOf({ bootId, seq }: FactName): string {
  return `${seq} ${bootId}`;
}

/** The takings among these items. */
export function takingsIn(items: readonly StoredItem[]): readonly Taking[] {
  return items.flatMap((item) =>
    item.kind === "takenBack"
      ? [
          {
            name: { bootId: item.bootId, seq: item.seq },
            takes: { bootId: item.factBootId, seq: item.factSeq },
          },
        ]
      : [],
  );
}

/** The takings among words that a state remembers. */
export function takingsOf(words: readonly PersonsWord[]): readonly Taking[] {
  return words.flatMap(({ bootId, seq, takes }) =>
    takes === null ? [] : [{ name: { bootId, seq }, takes }],
  );
}

/** Both lists, each taking once. */
export function mergeTakings(known: readonly Taking[], more: readonly Taking[]): readonly Taking[] {
  if (more.length === 0) return known;
  const names = new Set(known.map(({ name }) => nameOf(name)));
  const fresh = more.filter(({ name }) => !names.has(nameOf(name)));
  return fresh.length === 0 ? known : [...known, ...fresh];
}

/**
 * Names of all that is taken back. A taking that is itself taken back takes nothing back: undoing an undo
 * restores. Does not depend on the order of the list, and two that take back each other end nothing.
 */
export function takenBackNames(takings: readonly Taking[]): ReadonlySet<string> {
  const takersOf = new Map<string, string[]>();
  for (const { name, takes } of takings) {
    const takers = takersOf.get(nameOf(takes)) ?? [];
    takersOf.set(nameOf(takes), [...takers, nameOf(name)]);
  }
  const isTaken = (name: string, above: readonly string[]): boolean =>
    !above.includes(name) &&
    (takersOf.get(name) ?? []).some((taker) => taker !== name && !isTaken(taker, [...above, name]));
  return new Set([...takersOf.keys()].filter((name) => isTaken(name, [])));
}

/** Whether an item is a person's word that was taken back. */
export function isTakenBack(item: StoredItem, takenBack: ReadonlySet<string>): boolean {
  return isPersons(item) && takenBack.has(nameOf(item));
}

/**
 * From which instant a state must be folded again to be right with these takings: that of the first word it
 * took in the other way; null: it is right.
 */
export function wrongFrom(words: readonly PersonsWord[], takenBack: ReadonlySet<string>): number | null {
  return words.find((word) => word.isTakenBack !== takenBack.has(nameOf(word)))?.atMs ?? null;
}
