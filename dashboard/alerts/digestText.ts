import { compareSeverity } from "./alert.ts";
import type { Arriving } from "./flood.ts";

/** The longest text of a notice: two lines on a locked phone. */
export const longestText = 110;

/** One of the notices that go out as one. */
export type Gathered = Omit<Arriving, "atMs"> & { readonly text: string };

/**
 * The one text of several notices: how many, at how many booths, how many of them "now", and the worst of them. One
 * alone keeps its own text. Throws on an empty list.
 */
export function digestText(gathered: readonly Gathered[]): string {
  const worst = worstOf(gathered);
  if (gathered.length === 1) return shortened(worst.text);
  const booths = new Set(gathered.flatMap(({ boothId }) => boothId ?? [])).size;
  const places = booths === 0 ? "" : booths === 1 ? " at one booth" : ` at ${booths} booths`;
  const now = gathered.filter(({ severity }) => severity === "actNow").length;
  const pressing = now === 0 ? "" : `, ${now} now`;
  return shortened(`${gathered.length} alerts${places}${pressing}. First: ${worst.text}`);
}

/** The most pressing one, the first of them to come. */
export function worstOf<T extends Gathered>(gathered: readonly T[]): T {
  const [first, ...rest] = gathered;
  if (first === undefined) throw new Error("nothing is gathered");
  return rest.reduce(
    (worst, each) => (compareSeverity(each.severity, worst.severity) > 0 ? each : worst),
    first,
  );
}

/** At most 110 characters, cut between words. */
export function shortened(text: string): string {
  if (text.length <= longestText) return text;
  const cut = text.slice(0, longestText - 1);
  const space = cut.lastIndexOf(" ");
  return `${cut.slice(0, space > longestText / 2 ? space : undefined).replace(/[\s.,:;]+$/, "")}…`;
}
