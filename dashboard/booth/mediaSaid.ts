import type { SaidFact } from "@boothward/shared-types";
import type { PersonKind, PersonsWord } from "./personsWords.ts";

const paperKinds: ReadonlySet<PersonKind> = new Set<PersonKind>([
  ...(["rollFitted", "rollTakenOff", "correction", "waste", "rollDenied"] as const),
]);

const mostSaid = 10;

/** What people said about the paper since an instant, newest first, at most ten; also what was taken back. */
export function mediaSaid(words: readonly PersonsWord[], fromAtMs: number): SaidFact[] {
  return words
    .filter((word) => paperKinds.has(word.kind) && word.atMs >= fromAtMs)
    .slice(-mostSaid)
    .reverse()
    .map(({ bootId, seq, kind, atMs, sheets, by, isTakenBack }) => ({
      ...{ bootId, seq, atMs, sheets, by, isTakenBack },
      kind: kind as SaidFact["kind"],
    }));
}
