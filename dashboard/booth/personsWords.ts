import type { StoredItem } from "@boothward/shared-types";

/** What a person said, by the boot and number of its fact: it can be taken back. */
export type PersonsWord = {
  readonly bootId: string;
  readonly seq: number;
  readonly kind: PersonKind;
  readonly atMs: number;
  /** Sheets fitted, left, or wasted; null where none were said. */
  readonly sheets: number | null;
  readonly by: string | null;
  readonly isTakenBack: boolean;
  /** What a `takenBack` takes back; null for the others. */
  readonly takes: FactName | null;
};

export type FactName = { readonly bootId: string; readonly seq: number };

export type PersonKind =
  | "rollFitted"
  | "rollTakenOff"
  | "correction"
  | "waste"
  | "rollDenied"
  | "authority"
  | "readiness"
  | "extended"
  | "takenBack";
export type PersonItem = Extract<StoredItem, { kind: PersonKind }>;

const personKinds: ReadonlySet<string> = new Set<PersonKind>([
  ...(["rollFitted", "rollTakenOff", "correction", "waste", "rollDenied"] as const),
  ...(["authority", "readiness", "extended", "takenBack"] as const),
]);

/** What people say over a dozen events; taking back something older is folded again from the first item. */
const wordsKept = 200;

/** Whether an item is a person's word: only such a one can be taken back. */
export function isPersons(item: StoredItem): item is PersonItem {
  return personKinds.has(item.kind);
}

/** The words with one more. */
export function withWord(
  words: readonly PersonsWord[],
  item: PersonItem,
  isTakenBack: boolean,
): readonly PersonsWord[] {
  const { bootId, seq, kind, atMs, by } = item;
  const takes = item.kind === "takenBack" ? { bootId: item.factBootId, seq: item.factSeq } : null;
  const word = { bootId, seq, kind, atMs, sheets: sheetsOf(item), by, isTakenBack, takes };
  return [...words.slice(1 - wordsKept), word];
}

function sheetsOf(item: PersonItem): number | null {
  switch (item.kind) {
    case "rollFitted":
      return item.sheets;
    case "rollTakenOff":
    case "correction":
      return item.sheetsLeft;
    case "waste":
      return item.pitches;
    default:
      return null;
  }
}
