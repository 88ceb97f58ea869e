import type { SeenSession, Stretch } from "../../../dashboard/forecast/demand/demandInput.ts";

/** What a person at the booth knows when a rule is asked. */
export type Seen = {
  readonly atMs: number;
  readonly sheetsLeft: number;
  readonly spareRolls: number;
  readonly sessions: readonly SeenSession[];
  readonly stops: readonly Stretch[];
};

/**
 * What a rule says: `change` the roll at the next gap, `standBy` for its end with the next one in hand, or
 * nothing, `leave` it alone.
 */
export type ChangeRule = (seen: Seen) => "change" | "standBy" | "leave";

/** Nobody thinks of the roll before it has run out. */
export const whenEmpty: ChangeRule = () => "leave";

/** The roll is changed as soon as a tenth of a kit or less is left. */
export function atTenth(kitSheets: number): ChangeRule {
  return ({ sheetsLeft }) => (sheetsLeft <= kitSheets / 10 ? "change" : "leave");
}
