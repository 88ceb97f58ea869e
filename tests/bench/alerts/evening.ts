import type { Booking, Matter, Severity } from "@boothward/shared-types";
import type { BoothSettings } from "../../../dashboard/booth/boothSettings.ts";
import type { Day, DayBooth } from "../../../seeds/day.ts";
import type { ScenarioItem } from "../../../seeds/scenarioLine.ts";

/** One booth's evening before it is played: who comes, what goes wrong when, and what is only everyday. */
export type Evening = {
  readonly kind: "indoors" | "trailer";
  readonly troubles: readonly string[];
  readonly seed: number;
  readonly startAtMs: number;
  readonly booth: DayBooth;
  readonly settings: BoothSettings;
  readonly booking: Booking;
  /** What the booth's sources see of it all beside guests, prints and air. */
  readonly overlays: readonly Overlay[];
  /** The link is away. */
  readonly silences: readonly Span[];
  /** What somebody must hear of; the printer, the air and the sun add theirs when it is played. */
  readonly truths: readonly Truth[];
};

/** Minutes from the start of the scenario. */
export type Span = { readonly fromMin: number; readonly toMin: number };

/** Something that was so, and how loud it has to be said. */
export type Truth = Span & {
  readonly matter: Matter;
  readonly severity: Severity;
  /** Where it has to be foretold: from when on it could be, up to `fromMin`. */
  readonly sinceMin?: number;
  /** Another matter that says it as well. */
  readonly alsoBy?: Matter;
  /** True, and so near the line that nobody misses it when it is not said. */
  readonly isSlight?: boolean;
};

/** Changes or adds what is seen. */
export type Overlay = (items: readonly ScenarioItem[]) => readonly ScenarioItem[];

/** The day that the seeds' simulation asks for: it begins with the set-up. */
export function dayOf(booth: DayBooth): Day {
  return { name: "An invented day", startMin: 0, atOnce: [], booths: [booth] };
}

export function overlaps(a: Span, b: Span): boolean {
  return a.fromMin < b.toMin && b.fromMin < a.toMin;
}

export const minuteMs = 60_000;
