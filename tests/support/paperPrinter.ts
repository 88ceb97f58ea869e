import type { ItemKind, StoredItem } from "@boothward/shared-types";
import type { PaperBooth, PaperStep, PaperTruth, PrintSize, Told } from "./aPaperEvening.ts";
import { aStoredItem, minuteMs, sixAtMs, type ItemOf } from "./aStoredItem.ts";

/** What people say goes to the dashboard by itself; all else comes by the booth's link. */
const persons: ReadonlySet<ItemKind> = new Set([
  ...(["rollFitted", "rollTakenOff", "rollDenied", "correction"] as const),
  ...(["waste", "takenBack", "authority"] as const),
]);

type Step<D extends PaperStep["do"]> = Extract<PaperStep, { do: D }>;

/** A printer whose true sheets are known, and what a booth tells of it; `items` in the order of arrival. */
export class PaperPrinter {
  readonly items: StoredItem[] = [];
  #atMs = sixAtMs;
  #left: number;
  #ever = 1_000;
  #jobs = 0;
  #boots = 1;
  #said = 0;
  #wordsSaid = 0;
  /** What the booth has to tell while its link is down; null: the link is up. */
  #held: StoredItem[] | null = null;
  /** Whether all that left the roll since it was last known was told or counted. */
  #isCounted = true;
  #fittedAtMs = sixAtMs;
  /** By how much the meter says too much. */
  #meterOff = 0;
  #meterSaid = "";
  /** By how much it rose for some seconds, at most. */
  #wobble = 0;
  #isMeterSeen: boolean;
  #isCounterSeen: boolean;
  readonly #booth: PaperBooth;

  constructor(booth: PaperBooth) {
    this.#booth = booth;
    this.#left = booth.kitSheets;
    this.#isMeterSeen = booth.meter !== null;
    this.#isCounterSeen = booth.hasCounter;
  }

  begin(): void {
    if (this.#booth.hasCounter) this.#sayCounter();
    this.#change({ told: "atOnce", sheets: this.#booth.kitSheets, isWasteSaid: false });
  }

  take(step: PaperStep): PaperTruth {
    this.#atMs += 20 * minuteMs;
    this.#do(step);
    const isComplete = this.#held === null && (this.#isCounted || this.#isMeterTrue());
    return { told: this.items.length, sheetsLeft: this.#left, isComplete };
  }

  #do(step: PaperStep): void {
    switch (step.do) {
      case "print":
        return this.#print(pitchesOf(step.size) * step.copies);
      case "change":
        return this.#change(step);
      case "fitTooLarge":
        return this.#fitTooLarge(step.sheets);
      case "swapPartial":
        return this.#swapPartial(step);
      case "offAndOn":
        return this.#offAndOn(step.isCounted);
      case "runOut":
        return this.#runOut(step.isTold);
      case "count":
        return this.#count(step.isUndoUndone);
      case "waste":
        return this.#waste(step.pitches, step.isTold);
      case "chatter":
        return this.#chatter(step.sheets);
      case "jumpDenied":
        return this.#jumpDenied(step.sheets);
      case "mistake":
        return this.#mistake(step);
      case "restart":
        return this.#restart(step.printedMeanwhile);
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
    this.#sayJob(pitches);
  }

  #use(pitches: number): void {
    this.#left -= pitches;
    this.#ever += pitches;
    this.#atMs += 10_000;
    if (this.#isCounterSeen) this.#sayCounter();
    this.#sayMeter();
  }

  /** What a person takes off and puts in leaves neither counter nor jobs; waste is fed without a job. */
  #fit(sheets: number, said: number | null, at: { readonly isAtOnce: boolean } = { isAtOnce: false }): void {
    if (!at.isAtOnce) this.#atMs += 2 * minuteMs;
    if (said !== null) this.#say("rollFitted", { sheets: said, ...(at.isAtOnce && { atMs: this.#atMs }) });
    // A meter that once rose by itself is not believed when it rises by less than twice as much.
    const isRise = this.#isMeterTrue() && sheets > this.#left + Math.max(20, 2 * this.#wobble);
    this.#isCounted = said !== null || isRise;
    this.#fittedAtMs = this.#atMs;
    this.#left = sheets - Math.min(this.#booth.changeWaste, sheets);
    this.#atMs += 1_000;
    this.#sayMeter();
  }

  #change({ told, sheets, isWasteSaid }: Omit<Step<"change">, "do">): void {
    const { kitSheets, changeWaste } = this.#booth;
    const first = told === "atOnce" ? sheets : told === "twice" ? kitSheets - 1 : null;
    this.#fit(sheets, first);
    if (told === "twice") {
      this.#atMs += minuteMs;
      this.#say("rollFitted", { sheets });
    }
    if (told === "later" || told === "laterAsNow") this.#tellLater(told, sheets);
    if (told !== "never" && isWasteSaid && changeWaste > 0) {
      this.#atMs += minuteMs;
      this.#say("waste", { pitches: changeWaste, cause: "change" });
    }
  }

  /** Some prints later, of the instant at which it was done, or as if it were done now where a meter saw it. */
  #tellLater(told: Told, sheets: number): void {
    const isSeen = this.#isCounted;
    this.#atMs += 2 * minuteMs;
    this.#print(2);
    this.#atMs += 2 * minuteMs;
    const isAsNow = told === "laterAsNow" && isSeen;
    this.#say("rollFitted", isAsNow ? { sheets } : { sheets, atMs: this.#fittedAtMs });
    this.#isCounted = true;
  }

  /** More than any roll holds was typed for a full kit. */
  #fitTooLarge(said: number): void {
    this.#fit(this.#booth.kitSheets, said);
    // It leaves the say to a meter, which may be wrong.
    this.#isCounted = this.#booth.meter === null;
  }

  #swapPartial({ sheets, isAtOnce }: Step<"swapPartial">): void {
    this.#say("rollTakenOff", { sheetsLeft: this.#left });
    this.#fit(sheets, sheets, { isAtOnce });
  }

  #offAndOn(isCounted: boolean): void {
    this.#say("rollTakenOff", { sheetsLeft: isCounted ? this.#left : null });
    this.#atMs += 5 * minuteMs;
    const sheets = this.#left > 0 ? this.#left : this.#booth.kitSheets;
    this.#fit(sheets, sheets);
  }

  #runOut(isTold: boolean): void {
    const { kitSheets } = this.#booth;
    while (this.#left > 0) this.#print(Math.min(6, this.#left));
    this.#say("printerState", { state: "stopped", reasons: ["media-empty-error"] });
    this.#fit(kitSheets, isTold ? kitSheets : null);
    this.#say("printerState", { state: "idle", reasons: [] });
    this.#atMs += minuteMs;
    this.#print(1);
  }

  /** A count that stands; perhaps it was taken back, and that too. */
  #count(isUndoUndone: boolean): void {
    const word = this.#say("correction", { sheetsLeft: this.#left });
    if (isUndoUndone) this.#takeBack(this.#takeBack(word));
    this.#isCounted = true;
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
    if (this.#isMeterSeen) this.#wobble = Math.max(this.#wobble, sheets);
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
  #mistake({ kind, sheets }: Step<"mistake">): void {
    const over = kind === "correction" ? { sheetsLeft: sheets } : kind === "waste" ? { pitches: sheets } : {};
    const word = this.#say(kind, kind === "rollFitted" ? { sheets } : over);
    this.#atMs += minuteMs;
    this.#takeBack(word);
  }

  #takeBack({ bootId, seq }: StoredItem): StoredItem {
    return this.#say("takenBack", { factBootId: bootId, factSeq: seq });
  }

  /** The agent begins anew: it says all it sees, shows the last job again, and finds what was printed meanwhile. */
  #restart(printedMeanwhile: number): void {
    const pitches = Math.min(printedMeanwhile, this.#left);
    this.#left -= pitches;
    this.#ever += pitches;
    this.#atMs += 3 * minuteMs;
    this.#boots++;
    this.#said = 0;
    this.#say("agentStarted", {});
    if (this.#isCounterSeen) this.#sayCounter();
    else if (this.#booth.hasCounter) this.#sayCounterLost();
    if (this.#jobs > 0) this.#say("print", { pitches: 1, printId: `p-${this.#jobs}` });
    if (pitches > 0) this.#sayJob(pitches);
    this.#meterSaid = "";
    this.#sayMeter();
  }

  #see(what: Exclude<PaperStep, { readonly sheets: number }>["do"]): void {
    const { meter, hasCounter } = this.#booth;
    if (what === "loseMeter" && this.#isMeterSeen) this.#loseMeter();
    if (what === "findMeter" && meter !== null) {
      this.#isMeterSeen = true;
      this.#sayMeter();
    }
    if (what === "loseCounter" && this.#isCounterSeen) {
      this.#isCounterSeen = false;
      this.#sayCounterLost();
    }
    if (what === "findCounter" && hasCounter && !this.#isCounterSeen) {
      this.#isCounterSeen = true;
      this.#say("sourceState", { source: "dye-counter", fault: null });
      this.#sayCounter();
    }
    if (what === "restartCounter" && this.#isCounterSeen) {
      this.#ever = 0;
      this.#sayCounter();
    }
    if (what === "loseLink") this.#held ??= [];
    if (what === "findLink") this.#findLink();
    if (what === "stepClock") this.#say("clockStepped", {});
  }

  /** What was held comes now, the newest first: a booth sends facts and readings apart. */
  #findLink(): void {
    this.items.push(...(this.#held ?? []).reverse());
    this.#held = null;
  }

  #loseMeter(): void {
    this.#isMeterSeen = false;
    this.#meterSaid = "";
    for (const { part } of this.#parts()) this.#say("media", { part, sheetsLeft: null, leftPct: null });
  }

  #sayJob(pitches: number): void {
    this.#jobs++;
    this.#say("print", { pitches, printId: `p-${this.#jobs}` });
  }

  #sayCounter(): void {
    this.#say("counter", { source: "dye-counter", pitchesEver: this.#ever });
  }

  #sayCounterLost(): void {
    this.#say("sourceState", { source: "dye-counter", fault: "timeout" });
  }

  #isMeterTrue(): boolean {
    return this.#isMeterSeen && this.#booth.meter === "sheets" && this.#meterOff === 0;
  }

  /** What each part's meter would say of the sheets on it. */
  #parts(): readonly { readonly part: string; readonly sheets: number }[] {
    const sheets = Math.min(this.#left + this.#meterOff, 2 * this.#booth.kitSheets);
    const { ribbonExtra } = this.#booth;
    if (ribbonExtra === null) return [{ part: "kit", sheets }];
    return [
      { part: "Dye ribbon", sheets: sheets + ribbonExtra },
      { part: "Paper", sheets },
    ];
  }

  #sayMeter(): void {
    const { meter, rounding, kitSheets } = this.#booth;
    if (!this.#isMeterSeen || meter === null) return;
    const shown = this.#parts().map(({ part, sheets }) => {
      if (meter === "sheets") return { part, sheetsLeft: sheets, leftPct: null };
      const leftPct = Math[rounding]((100 * sheets) / kitSheets / meter) * meter;
      return { part, sheetsLeft: null, leftPct: Math.min(100, leftPct) };
    });
    const said = JSON.stringify(shown);
    if (said === this.#meterSaid) return;
    this.#meterSaid = said;
    for (const each of shown) this.#say("media", each);
  }

  #say<K extends ItemKind>(kind: K, over: Partial<ItemOf<K>>): StoredItem {
    const isWord = persons.has(kind);
    const seq = isWord ? ++this.#wordsSaid : ++this.#said;
    const bootId = isWord ? "dashboard" : `boot-${String(this.#boots)}`;
    const source = isWord ? "dashboard" : "booth";
    const instant = this.#atMs;
    this.#atMs += 1;
    const atMs = over.atMs ?? this.#atMs;
    // A second word of the instant of the first takes no time.
    if (over.atMs === instant) this.#atMs = instant;
    const item = { ...aStoredItem(kind), source, ...over, atMs, bootId, seq };
    (isWord || this.#held === null ? this.items : this.#held).push(item);
    return item;
  }
}

function pitchesOf(size: PrintSize): number {
  return size === "6x8" ? 2 : 1;
}
