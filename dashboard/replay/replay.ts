import type { ReadLine } from "./lineReader.ts";

/** A line that comes where it cannot be used. */
export class ReplayRefusal extends Error {}

/** What plays lines of one subject again. */
export type Replay<Line, Answer> = {
  readonly read: (text: string) => ReadLine<Line>;
  /**
   * Takes the next line; answers an ask, null to all others. What it leaves out though the line is well made, it
   * says to `remark`. Throws `ReplayRefusal` for a line out of place.
   */
  readonly take: (line: Line, remark: (text: string) => void) => Answer | null;
  /** What comes until the next opening line belongs to nothing. */
  readonly close: () => void;
};
