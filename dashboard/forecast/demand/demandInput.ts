/** What the demand forecast of one booking is made from. All instants are Unix ms, all sheets pitches of media. */
export type DemandInput = {
  readonly plan: DemandPlan;
  /** Earlier evenings of the same kind; with three or more the shape is learned from them. */
  readonly past: readonly PastEvening[];
  /** Finished sessions in the order of time, those before the opening too. */
  readonly sessions: readonly SeenSession[];
  /** Stretches in which the booth could not print, in the order of their beginning; they may overlap. */
  readonly stops: readonly Stretch[];
};

export type DemandPlan = {
  /** Keys the stream of dice: the same booking gives the same answer however often it is asked. */
  readonly key: string;
  readonly openAtMs: number;
  readonly closeAtMs: number;
  /** null: not known. */
  readonly guests: number | null;
  /** wedding, corporate, party, public, gala, or any other word; null: not known. */
  readonly eventKind: string | null;
  /** Mean sheets a session, where the plan says; null: learned from the evening. */
  readonly sheetsPerSession: number | null;
  /** Sheets loaded at the opening; guides the level where guests are unknown. */
  readonly sheetsLoaded: number | null;
};

/** An earlier evening. `sheetsPer15Min` counts the sheets of each quarter-hour from the opening on. */
export type PastEvening = {
  readonly eventKind: string;
  readonly openAtMs: number;
  readonly closeAtMs: number;
  readonly guests: number | null;
  readonly sessions: number;
  readonly sheets: number;
  readonly sheetsPer15Min: readonly number[];
};

/** `atMs` is when the guests finished. */
export type SeenSession = { readonly atMs: number; readonly sheets: number };

/** `toAtMs` null: it goes on. */
export type Stretch = { readonly fromAtMs: number; readonly toAtMs: number | null };
