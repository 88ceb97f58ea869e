import {
  alertFigures,
  type AlertView,
  type Matter,
  type Severity,
  type Suppression,
} from "@boothward/shared-types";
import * as z from "zod/mini";

/**
 * An alert as it is stored: flat JSON. While `phase` is "holding" nobody has been told; "clearing" is still
 * open to people; "over" is clear but may hold again, or waits for somebody to see it; "closed" is history.
 */
export type Alert = Figures &
  Lifecycle & {
    readonly alertId: string;
    readonly boothId: string;
    readonly matter: Matter;
    readonly severity: Severity;
    readonly phase: "holding" | "open" | "clearing" | "over" | "closed";
    /** When the matter itself began, from the booth's state. */
    readonly sinceAtMs: number;
    /** When it was first judged to hold. */
    readonly heldFromAtMs: number;
    readonly raisedAtMs: number | null;
    /** Since when it has been judged worse than `severity`; null: it is not. */
    readonly worseFromAtMs: number | null;
    readonly clearFromAtMs: number | null;
    /** When the matter was over; null while it is not. */
    readonly clearedAtMs: number | null;
    readonly closedAtMs: number | null;
  };

/** What people and the rules of silence have made of an alert; beside it stands what was judged. */
export type Lifecycle = {
  /** Who said "I'm on it", and when. */
  readonly taken: { readonly by: string; readonly atMs: number } | null;
  readonly laterUntilAtMs: number | null;
  readonly doneAtMs: number | null;
  readonly suppressedBy: Suppression | null;
  /** The rule is switched off. */
  readonly isOutOfService: boolean;
  /** Notices that were queued for it. */
  readonly told: readonly { readonly key: string; readonly atMs: number }[];
};

export const untouched: Lifecycle = {
  taken: null,
  laterUntilAtMs: null,
  doneAtMs: null,
  suppressedBy: null,
  isOutOfService: false,
  told: [],
};

/** The figures that a sentence needs; null where unknown or beside the matter. */
export type Figures = Pick<AlertView, keyof typeof alertFigures>;

const figureNames = Object.keys(alertFigures) as (keyof Figures)[];

/** The figures alone of whatever carries them. */
export function figuresOf(carrier: Figures): Figures {
  return Object.fromEntries(figureNames.map((name) => [name, carrier[name]])) as Figures;
}

/**
 * What a rule says of a booth at one moment. "lingers": no longer bad enough to raise an alert, not well
 * enough to clear one. "unseen": nobody can tell now, so nothing moves.
 */
export type Judged =
  | Standing
  | { readonly matter: Matter; readonly stands: "clear" }
  | { readonly matter: Matter; readonly stands: "unseen" };

export type Standing = Figures & {
  readonly matter: Matter;
  readonly stands: "holds" | "lingers";
  readonly severity: Severity;
  readonly since: Since;
};

/**
 * When the matter began, as the state knows it: then, or before what the state remembers. null for what is
 * only foreseen: it begins when it is first judged.
 */
export type Since = { readonly atMs: number; readonly isAtLatest: boolean } | null;

/** No figures: each judge fills in its own. */
export const noFigures: Figures = z.object(alertFigures).parse({});

const severityRank: Record<Severity, number> = { actNow: 2, plan: 1, note: 0 };

/** Positive when `a` is more pressing than `b`. */
export function compareSeverity(a: Severity, b: Severity): number {
  return severityRank[a] - severityRank[b];
}
