import type { StoredItem } from "@boothward/shared-types";
import * as fc from "fast-check";
import { PaperPrinter } from "./paperPrinter.ts";

/** How big a print is: a 6x8 takes two pitches of the roll, a 4x6 and a pair of strips one. */
export type PrintSize = "4x6" | "strips" | "6x8";

/** When a person tells of a roll: also mistyped and at once typed again, or when asked, as if it were done just now. */
export type Told = "atOnce" | "twice" | "later" | "laterAsNow" | "never";

/** What happens to the paper at a booth, one step after another, twenty minutes or more apart. */
export type PaperStep =
  | { readonly do: "print"; readonly size: PrintSize; readonly copies: number }
  | { readonly do: "change"; readonly told: Told; readonly sheets: number; readonly isWasteSaid: boolean }
  | { readonly do: "fitTooLarge"; readonly sheets: number }
  | { readonly do: "swapPartial"; readonly sheets: number; readonly isAtOnce: boolean }
  | { readonly do: "offAndOn"; readonly isCounted: boolean }
  | { readonly do: "runOut"; readonly isTold: boolean }
  | { readonly do: "count"; readonly isUndoUndone: boolean }
  | { readonly do: "waste"; readonly pitches: number; readonly isTold: boolean }
  | { readonly do: "chatter"; readonly sheets: number }
  | { readonly do: "jumpDenied"; readonly sheets: number }
  | { readonly do: "mistake"; readonly kind: "correction" | "rollFitted" | "waste"; readonly sheets: number }
  | { readonly do: "restart"; readonly printedMeanwhile: number }
  | { readonly do: "loseMeter" | "findMeter" | "loseCounter" | "findCounter" | "restartCounter" }
  | { readonly do: "loseLink" | "findLink" | "stepClock" }
  | { readonly do: "countBy"; readonly basis: "counter" | "jobs" | null };

/** How the booth sees its paper. */
export type PaperBooth = {
  /** A meter that counts sheets, or says percent of a kit in steps of so many; null: no meter. */
  readonly meter: "sheets" | 1 | 5 | 10 | null;
  /** How a meter in percent rounds. */
  readonly rounding: "ceil" | "floor" | "round";
  /** A meter for paper and one for ribbon, which has so many sheets more; null: one meter for the kit. */
  readonly ribbonExtra: number | null;
  readonly hasCounter: boolean;
  readonly kitSheets: number;
  /** Sheets that every change wastes. */
  readonly changeWaste: number;
};

/** What is in the printer when so many items have been told. */
export type PaperTruth = {
  readonly told: number;
  readonly sheetsLeft: number;
  /** Whether all that happened to the paper was counted, told, or seen by a meter since. */
  readonly isComplete: boolean;
};

export type PaperEvening = {
  readonly booth: PaperBooth;
  readonly steps: readonly PaperStep[];
  /** In the order of arrival. */
  readonly items: readonly StoredItem[];
  readonly truths: readonly PaperTruth[];
};

const anySheets = (most: number) => fc.integer({ min: 1, max: most });

/** More than meter and count may part by: so much a meter can be wrong only in doubt. */
const anyJump = fc.integer({ min: 25, max: 200 });

const anyPrint: fc.Arbitrary<PaperStep> = fc.record({
  do: fc.constant("print" as const),
  size: fc.constantFrom("4x6", "strips", "6x8"),
  copies: anySheets(4),
});

const anyChange: fc.Arbitrary<PaperStep> = fc.record({
  do: fc.constant("change" as const),
  told: fc.constantFrom("atOnce", "twice", "later", "laterAsNow", "never"),
  sheets: fc.constantFrom(400, 400, 250, 120),
  isWasteSaid: fc.boolean(),
});

const anyPartial: fc.Arbitrary<PaperStep> = fc.oneof(
  fc.record({
    do: fc.constant("swapPartial" as const),
    sheets: anySheets(300),
    isAtOnce: fc.boolean(),
  }),
  fc.boolean().map((isCounted) => ({ do: "offAndOn" as const, isCounted })),
);

const anyWord: fc.Arbitrary<PaperStep> = fc.oneof(
  fc.boolean().map((isUndoUndone) => ({ do: "count" as const, isUndoUndone })),
  fc.record({ do: fc.constant("waste" as const), pitches: anySheets(4), isTold: fc.boolean() }),
  fc.record({
    do: fc.constant("mistake" as const),
    kind: fc.constantFrom("correction", "rollFitted", "waste"),
    sheets: anySheets(400),
  }),
  fc.integer({ min: 2_000, max: 5_000 }).map((sheets) => ({ do: "fitTooLarge" as const, sheets })),
);

const anyFault: fc.Arbitrary<PaperStep> = fc.oneof(
  anyJump.map((sheets) => ({ do: "chatter" as const, sheets })),
  anyJump.map((sheets) => ({ do: "jumpDenied" as const, sheets })),
  fc.integer({ min: 0, max: 5 }).map((printedMeanwhile) => ({ do: "restart" as const, printedMeanwhile })),
  fc
    .constantFrom("loseMeter", "findMeter", "loseCounter", "findCounter", "restartCounter")
    .map((each) => ({ do: each }) as const),
  fc.constantFrom("loseLink", "findLink", "findLink", "stepClock").map((each) => ({ do: each }) as const),
  fc.constantFrom("counter", "jobs", null).map((basis) => ({ do: "countBy" as const, basis })),
);

const anyStep: fc.Arbitrary<PaperStep> = fc.oneof(
  { weight: 6, arbitrary: anyPrint },
  { weight: 2, arbitrary: anyChange },
  { weight: 2, arbitrary: anyPartial },
  { weight: 1, arbitrary: fc.boolean().map((isTold) => ({ do: "runOut" as const, isTold })) },
  { weight: 3, arbitrary: anyWord },
  { weight: 5, arbitrary: anyFault },
);

/** Evenings of paper with what was really in the printer. */
export const anyPaperEvening: fc.Arbitrary<PaperEvening> = fc
  .record({
    booth: fc.record({
      meter: fc.constantFrom<PaperBooth["meter"][]>(null, "sheets", "sheets", 1, 5, 10),
      rounding: fc.constantFrom("ceil", "floor", "round"),
      ribbonExtra: fc.constantFrom(null, null, 0, 5),
      hasCounter: fc.boolean(),
      kitSheets: fc.constantFrom(400, 400, 700),
      changeWaste: fc.integer({ min: 0, max: 4 }),
    }),
    steps: fc.array(anyStep, { minLength: 1, maxLength: 25 }),
  })
  .map(({ booth, steps }) => playPaper(booth, steps));

/** Plays the steps on a printer with a roll in it, and keeps what the booth tells of it. */
export function playPaper(booth: PaperBooth, steps: readonly PaperStep[]): PaperEvening {
  const printer = new PaperPrinter(booth);
  printer.begin();
  const truths = steps.map((step) => printer.take(step));
  return { booth, steps, items: printer.items, truths };
}
