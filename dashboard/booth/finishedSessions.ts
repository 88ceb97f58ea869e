import type { BoothState } from "./boothState.ts";
import { attribute } from "./attribution.ts";
import type { Stretch } from "./sessionAuthority.ts";

/** A session with the sheets it used, reprints with them. `atMs` is when the guests finished. */
export type FinishedSession = { readonly atMs: number; readonly sheets: number };

/**
 * The finished sessions of a stretch, oldest first, before `toAtMs`. Each has the pitches that are its own;
 * reprints go with the last session before them, those before the first session and tests with none. The prints
 * of the last groups may still be on their way.
 */
export function finishedSessions(
  state: Pick<BoothState, "bins" | "counts">,
  stretch: Stretch,
): readonly FinishedSession[] {
  const { sessions, reprints } = attribute(state, stretch);
  const sheets = sessions.map(({ pitches }) => pitches);
  let at = -1;
  for (const use of reprints) {
    while ((sessions[at + 1]?.atMs ?? Infinity) <= use.atMs) at++;
    if (at >= 0) sheets[at] = (sheets[at] ?? 0) + use.counted;
  }
  return sessions.map(({ atMs }, index) => ({ atMs, sheets: sheets[index] ?? 0 }));
}
