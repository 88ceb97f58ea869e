import type { ItemKind, StoredItem } from "@boothward/shared-types";
import * as fc from "fast-check";
import { aStoredItem, minuteMs, sixAtMs, type ItemOf } from "./aStoredItem.ts";

/** What happens to the paper at a booth, one step after another, five minutes or more apart. */
export type PaperStep =
  | { readonly do: "print"; readonly pitches: number }
  | { readonly do: "change"; readonly told: "atOnce" | "later" | "never"; readonly sheets: number }
  | { readonly do: "swapPartial"; readonly sheets: number }
  | { readonly do: "offAndOn"; readonly isCounted: boolean }
  | { readonly do: "runOut"; readonly isTold: boolean }
  | { readonly do: "count" }
  | { readonly do: "waste"; readonly pitches: number; readonly isTold: boolean }
  | { readonly do: "chatter"; readonly sheets: number }
  | { readonly do: "jumpDenied"; readonly sheets: number }
  | { readonly do: "mistake"; readonly kind: "correction" | "rollFitted" | "waste"; readonly sheets: number }
  | { readonly do: "loseMeter" | "findMeter" | "loseCounter" | "findCounter" | "restartCounter" }
  | { readonly do: "countBy"; readonly basis: "counter" | "jobs" | null };

/** How the booth sees its paper. */
export type PaperBooth = {
  /** Sheets the meter moves at a time; null: no meter. */
  readonly meterStep: number | null;
  readonly hasCounter: boolean;
  readonly kitSheets: number;
  /** Sheets that every change wastes. */
  readonly changeWaste: number;
};

/** What is in the printer at an instant by which all has been told. */
export type PaperTruth = {
  readonly atMs: number;
  readonly sheetsLeft: number;
  /** Whether all that happened to the paper was counted, told, or seen by a meter since. */
  readonly isComplete: boolean;
};

export type PaperEvening = {
  readonly booth: PaperBooth;
  readonly steps: readonly PaperStep[];
  readonly items: readonly StoredItem[];
  readonly truths: readonly PaperTruth[];
};

const anySheets = (most: number) => fc.integer({ min: 1, max: most });

/** More than meter and count may part by: so much a meter can be wrong only in doubt. */
const anyJump = fc.integer({ min: 20, max: 200 });

const anyStep: fc.Arbitrary<PaperStep> = fc.oneof(
  { weight: 8, arbitrary: anySheets(6).map((pitches) => ({ do: "print" as const, pitches })) },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant("change" as const),
      told: fc.constantFrom("atOnce", "later", "never"),
      sheets: fc.constantFrom(400, 400, 250, 120),
    }),
  },
  anyJump.map((sheets) => ({ do: "chatter" as const, sheets })),
  anyJump.map((sheets) => ({ do: "jumpDenied" as const, sheets })),
  anySheets(300).map((sheets) => ({ do: "swapPartial" as const, sheets })),
  fc.boolean().map((isCounted) => ({ do: "offAndOn" as const, isCounted })),
  fc.boolean().map((isTold) => ({ do: "runOut" as const, isTold })),
  fc.constant({ do: "count" as const }),
  fc.record({ do: fc.constant("waste" as const), pitches: anySheets(4), isTold: fc.boolean() }),
  fc.record({
    do: fc.constant("mistake" as const),
    kind: fc.constantFrom("correction", "rollFitted", "waste"),
    sheets: anySheets(400),
  }),
  fc
    .constantFrom("loseMeter", "findMeter", "loseCounter", "findCounter", "restartCounter")
    .map((each) => ({ do: each }) as const),
  fc.constantFrom("counter", "jobs", null).map((basis) => ({ do: "countBy" as const, basis })),
);

/** Evenings of paper with what was really in the printer. */
export const anyPaperEvening: fc.Arbitrary<PaperEvening> = fc
  .record({
    booth: fc.record({
      meterStep: fc.constantFrom(null, 1, 1, 20, 40),
      hasCounter: fc.boolean(),
      kitSheets: fc.constant(400),
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

class PaperPrinter {
  readonly items: StoredItem[] = [];
  #atMs = sixAtMs;
  #left: number;
  #ever = 1_000;
  /** Whether all that left the roll since it was last known was told or counted. */
  #isCounted = true;
  #fittedAtMs = sixAtMs;
  /** By how much the meter says too much. */
  #meterOff = 0;
  #meterSaid: number | null = null;
  #isMeterSeen: boolean;
  #isCounterSeen: boolean;
  readonly #booth: PaperBooth;

  constructor(booth: PaperBooth) {
    this.#booth = booth;
    this.#left = booth.kitSheets;
    this.#isMeterSeen = booth.meterStep !== null;
    this.#isCounterSeen = booth.hasCounter;
  }

  begin(): void {
    if (this.#booth.hasCounter) this.#sayCounter();
    this.#fit(this.#booth.kitSheets, true);
  }

  take(step: PaperStep): PaperTruth {
    this.#atMs += 20 * minuteMs;
    this.#do(step);
    return {
      atMs: this.#atMs + minuteMs,
      sheetsLeft: this.#left,
      isComplete: this.#isCounted || this.#isMeterTrue(),
    };
  }

  #do(step: PaperStep): void {
    switch (step.do) {
      case "print":
        return this.#print(step.pitches);
      case "change":
        return this.#change(step.told, step.sheets);
      case "swapPartial":
        this.#say("rollTakenOff", { sheetsLeft: this.#left });
        return this.#fit(step.sheets, true);
      case "offAndOn":
        return this.#offAndOn(step.isCounted);
      case "runOut":
        return this.#runOut(step.isTold);
      case "count":
        this.#say("correction", { sheetsLeft: this.#left });
        this.#isCounted = true;
        return;
      case "waste":
        return this.#waste(step.pitches, step.isTold);
      case "chatter":
        return this.#chatter(step.sheets);
      case "jumpDenied":
        return this.#jumpDenied(step.sheets);
      case "mistake":
        return this.#mistake(step.kind, step.sheets);
      case "countBy":
        this.#say("authority", { pitchesBy: this.#booth.hasCounter ? step.basis : null });
        return;
      default:
        return this.#see(step.do);
    }
  }

  /** One job: the paper leaves, the counter and the meter move, the job is done. */
  #print(pitches: number): void {
    // The jobs that a roll cannot hold are not sent: its last sheets are for `runOut`.
    if (pitches > this.#left) return;
    this.#use(pitches);
    this.#say("print", { pitches, printId: `p-${this.items.length}` });
  }

  #use(pitches: number): void {
    this.#left -= pitches;
    this.#ever += pitches;
    this.#atMs += 10_000;
    if (this.#isCounterSeen) this.#sayCounter();
    this.#sayMeter();
  }

  /** What a person takes off and puts in leaves neither counter nor jobs; waste is fed without a job. */
  #fit(sheets: number, isTold: boolean): void {
    this.#atMs += 2 * minuteMs;
    if (isTold) this.#say("rollFitted", { sheets });
    const isRise = this.#isMeterTrue() && sheets > this.#left + 20;
    this.#isCounted = isTold || isRise;
    this.#fittedAtMs = this.#atMs;
    this.#left = sheets - Math.min(this.#booth.changeWaste, sheets);
    this.#atMs += 1_000;
    this.#sayMeter();
  }

  /** A person tells of it as it is done, or some prints later, or never. */
  #change(told: "atOnce" | "later" | "never", sheets: number): void {
    this.#fit(sheets, told === "atOnce");
    if (told !== "later") return;
    this.#atMs += 2 * minuteMs;
    this.#print(2);
    this.#atMs += 2 * minuteMs;
    // Said of the instant at which it was done.
    this.#say("rollFitted", { sheets, atMs: this.#fittedAtMs });
    this.#isCounted = true;
  }

  #offAndOn(isCounted: boolean): void {
    this.#say("rollTakenOff", { sheetsLeft: isCounted ? this.#left : null });
    const sheets = this.#left;
    this.#atMs += 5 * minuteMs;
    if (sheets > 0) this.#fit(sheets, true);
    else this.#fit(this.#booth.kitSheets, true);
  }

  #runOut(isTold: boolean): void {
    while (this.#left > 0) this.#print(Math.min(6, this.#left));
    this.#say("printerState", { state: "stopped", reasons: ["media-empty-error"] });
    this.#fit(this.#booth.kitSheets, isTold);
    this.#say("printerState", { state: "idle", reasons: [] });
    this.#atMs += minuteMs;
    this.#print(1);
  }

  #waste(pitches: number, isTold: boolean): void {
    const wasted = Math.min(pitches, this.#left);
    if (wasted === 0) return;
    this.#left -= wasted;
    if (!isTold) this.#isCounted = false;
    this.#sayMeter();
    this.#atMs += 1_000;
    if (isTold) this.#say("waste", { pitches: wasted, cause: "spoilt" });
  }

  /** For some seconds the meter says too much. */
  #chatter(sheets: number): void {
    const off = this.#meterOff;
    this.#meterOff += sheets;
    this.#sayMeter();
    this.#atMs += 30_000;
    this.#meterOff = off;
    this.#sayMeter();
  }

  /** From now on the meter says too much; a person denies that a roll was put in. */
  #jumpDenied(sheets: number): void {
    if (!this.#isMeterSeen) return;
    this.#meterOff += sheets;
    this.#sayMeter();
    const atMs = this.#atMs;
    this.#atMs += 5 * minuteMs;
    this.#say("rollDenied", { atMs });
  }

  /** A wrong word and its undo. */
  #mistake(kind: "correction" | "rollFitted" | "waste", sheets: number): void {
    const over = kind === "correction" ? { sheetsLeft: sheets } : kind === "waste" ? { pitches: sheets } : {};
    const factSeq = this.#say(kind, kind === "rollFitted" ? { sheets } : over);
    this.#atMs += minuteMs;
    this.#say("takenBack", { factBootId: "boot-1", factSeq });
  }

  #see(what: "loseMeter" | "findMeter" | "loseCounter" | "findCounter" | "restartCounter"): void {
    const { meterStep, hasCounter } = this.#booth;
    if (what === "loseMeter" && this.#isMeterSeen) {
      this.#isMeterSeen = false;
      this.#meterSaid = null;
      this.#say("media", { sheetsLeft: null, leftPct: null });
    } else if (what === "findMeter" && meterStep !== null) {
      this.#isMeterSeen = true;
      this.#sayMeter();
    } else if (what === "loseCounter" && this.#isCounterSeen) {
      this.#isCounterSeen = false;
      this.#say("sourceState", { source: "dye-counter", fault: "timeout" });
    } else if (what === "findCounter" && hasCounter && !this.#isCounterSeen) {
      this.#isCounterSeen = true;
      this.#say("sourceState", { source: "dye-counter", fault: null });
      this.#sayCounter();
    } else if (what === "restartCounter" && this.#isCounterSeen) {
      this.#ever = 0;
      this.#sayCounter();
    }
  }

  #sayCounter(): void {
    this.#say("counter", { source: "dye-counter", pitchesEver: this.#ever });
  }

  #isMeterTrue(): boolean {
    return this.#isMeterSeen && this.#booth.meterStep === 1 && this.#meterOff === 0;
  }

  #sayMeter(): void {
    const { meterStep, kitSheets } = this.#booth;
    if (!this.#isMeterSeen || meterStep === null) return;
    const shown = Math.min(Math.ceil((this.#left + this.#meterOff) / meterStep) * meterStep, 2 * kitSheets);
    if (shown === this.#meterSaid) return;
    this.#meterSaid = shown;
    const isInSheets = meterStep === 1;
    this.#say("media", {
      sheetsLeft: isInSheets ? shown : null,
      leftPct: isInSheets ? null : Math.min(100, (100 * shown) / kitSheets),
    });
  }

  #say<K extends ItemKind>(kind: K, over: Partial<ItemOf<K>>): number {
    const seq = this.items.length + 1;
    this.#atMs += 1;
    this.items.push({ ...aStoredItem(kind), atMs: this.#atMs, ...over, seq });
    return seq;
  }
}
