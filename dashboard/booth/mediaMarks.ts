/** What is known of the media at one moment, without settings: a full kit may hold any number of sheets. */
export type MediaMarks = {
  /** All pitches counted so far; only differences of it mean something. */
  readonly pitchesEver: number;
  /** When the last pitch was counted. */
  readonly countedAtMs: number | null;
  readonly meters: readonly Meter[];
  readonly base: MediaBase | null;
};

/** What one part's meter last said. */
export type Meter = {
  readonly key: string;
  readonly sheetsLeft: number | null;
  readonly leftPct: number | null;
  /** The meter's own time. */
  readonly atMs: number;
  /** `pitchesEver` at that time: what was counted since is taken off. */
  readonly pitchesAt: number;
  /** Sheets of a job going on that the meter has seen and the count has not: not to be taken off twice. */
  readonly ahead: number;
  /** Smallest step down seen of a meter in percent; null before the first, and for one that counts sheets. */
  readonly stepPct: number | null;
};

/** The last moment at which it was known what the roll held. */
export type MediaBase = {
  /** By a person who fitted or counted, by a meter that jumped up, or assumed after the printer was empty. */
  readonly basis: "fitted" | "corrected" | "jumped" | "assumed";
  readonly sheets: number | null;
  /** Where the meter speaks in percent; both null: a full kit. */
  readonly leftPct: number | null;
  readonly atMs: number;
  readonly pitchesAt: number;
};
