/** What is known of the media at one moment, without settings: a full kit may hold any number of sheets. */
export type MediaMarks = {
  /** All pitches that left the roll so far; only differences of it mean something. */
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
  /** Smallest step down seen, in the unit the meter speaks; null before the first. */
  readonly step: number | null;
  /** Steps down seen, up to a few: one alone may be what was printed while nobody looked. */
  readonly falls: number;
  /** How far it was seen to rise and fall again with nothing put in, in the same unit. */
  readonly wobble: number;
  /** It has no figure now; what it said is kept to know a change when it has one again. */
  readonly isLost: boolean;
};

/** The last moment at which it was known what the roll held. */
export type MediaBase = {
  /**
   * By a person who fitted, counted or took the roll off, by a meter that jumped up, assumed when prints came
   * again from an empty printer, or as the plan says it was loaded.
   */
  readonly basis: "fitted" | "corrected" | "off" | "jumped" | "assumed" | "loaded";
  readonly sheets: number | null;
  /** Where the meter speaks in percent; both null: a full kit. */
  readonly leftPct: number | null;
  readonly atMs: number;
  readonly pitchesAt: number;
  /** Who said it. */
  readonly by: string | null;
  /** The waste of the change was counted by a person: no usual waste is taken off. */
  readonly isWasteSaid: boolean;
  /** What the meters said when a person counted: one that was wrong then is off by as much later. */
  readonly metersThen: readonly Meter[];
};

/** A roll that came or went. */
export type RollChange = {
  readonly base: MediaBase;
  /** What was known just before, and would be without the change. */
  readonly before: MediaMarks;
  /** The meter that jumped; null for other changes. */
  readonly meterKey: string | null;
};

/** Whether two are one and the same, also after one of them was stored and read again. */
export function isSameBase(a: MediaBase | null, b: MediaBase | null): boolean {
  if (a === null || b === null) return a === b;
  const isSameMoment = a.atMs === b.atMs && a.pitchesAt === b.pitchesAt && a.basis === b.basis;
  return isSameMoment && a.sheets === b.sheets && a.leftPct === b.leftPct;
}
