import type { DemandInput, PastEvening, SeenSession } from "../forecast/demand/demandInput.ts";
import type { DemandRun } from "../forecast/demand/demandRun.ts";
import { emptyAtMs } from "../forecast/demand/emptyAt.ts";
import { forecastDemand } from "../forecast/demand/forecastDemand.ts";
import { openSheetCount, type SheetCount } from "./sheetCount.ts";
import { ReplayRefusal, type Replay } from "./replay.ts";
import { readReplayLine, type ReplayLine } from "./replayLines.ts";

/** What is answered to one ask. A null in `emptyAt`: not before the end. */
export type DemandAnswer = {
  readonly at: string;
  readonly sheetsLeft: number;
  readonly demandToEnd: {
    readonly p10: number;
    readonly p50: number;
    readonly p90: number;
    readonly mean: number;
  };
  readonly emptyAt: {
    readonly p10: string | null;
    readonly p50: string | null;
    readonly p90: string | null;
  };
  readonly lastsChance: number;
};

type LineOf<Kind extends ReplayLine["kind"]> = Extract<ReplayLine, { kind: Kind }>;

type Evening = {
  readonly input: DemandInput;
  readonly sessions: SeenSession[];
  readonly stops: { readonly fromAtMs: number; readonly toAtMs: number }[];
  readonly sheets: SheetCount;
  run: DemandRun | null;
};

/** Plays evenings again, line by line, through the forecast that the dashboard uses. */
export function openReplay(): Replay<ReplayLine, DemandAnswer> {
  let past: PastEvening[] = [];
  let evening: Evening | null = null;
  const playing = (kind: string): Evening => {
    if (evening === null) throw new ReplayRefusal(`field "kind" is "${kind}": no plan came before it`);
    return evening;
  };
  return {
    read: readReplayLine,
    close: () => {
      evening = null;
    },
    take: (line) => {
      switch (line.kind) {
        case "past":
          past = withPast(past, line);
          return null;
        case "plan":
          evening = openEvening(line, past);
          return null;
        case "ask":
          return answerAsk(playing(line.kind), line);
        default:
          takeFact(playing(line.kind), line);
          return null;
      }
    },
  };
}

/** A pattern that is not named is a pattern of its own. */
const unnamed = "";

/** Evenings stay until those of another pattern arrive. */
function withPast(past: readonly PastEvening[], line: LineOf<"past">): PastEvening[] {
  const eventKind = line.pattern ?? unnamed;
  return [
    ...past.filter((evening) => evening.eventKind === eventKind),
    {
      eventKind,
      openAtMs: line.start.atMs,
      closeAtMs: line.end.atMs,
      guests: line.guests,
      sessions: line.sessions,
      sheets: line.sheets,
      sheetsPer15Min: line.bins15,
    },
  ];
}

function openEvening(line: LineOf<"plan">, past: readonly PastEvening[]): Evening {
  const sessions: SeenSession[] = [];
  const stops: Evening["stops"] = [];
  const eventKind = line.pattern ?? (past.some((evening) => evening.eventKind === unnamed) ? unnamed : null);
  const plan = {
    key: `${line.start.atMs} ${line.end.atMs} ${line.pattern ?? ""} ${line.guests ?? ""}`,
    openAtMs: line.start.atMs,
    closeAtMs: line.end.atMs,
    guests: line.guests,
    eventKind,
    sheetsPerSession: line.sheetsPerSession,
    sheetsLoaded: line.sheetsLoaded,
  };
  return {
    input: { plan, past, sessions, stops },
    sessions,
    stops,
    sheets: openSheetCount(line.sheetsLoaded),
    run: null,
  };
}

function takeFact(evening: Evening, line: LineOf<"session" | "stop" | "roll" | "correct">): void {
  switch (line.kind) {
    case "session":
      insertInOrder(evening.sessions, { atMs: line.at.atMs, sheets: line.sheets });
      return evening.sheets.use(line.at.atMs, line.sheets);
    case "stop":
      evening.stops.push({ fromAtMs: line.from.atMs, toAtMs: line.to.atMs });
      return;
    case "roll":
      return evening.sheets.set(line.at.atMs, line.sheets);
    case "correct":
      return evening.sheets.set(line.at.atMs, line.sheetsLeft);
  }
}

/** Lines should come in the order of time; one that does not is put where it belongs. */
function insertInOrder(sessions: SeenSession[], session: SeenSession): void {
  let place = sessions.length;
  while (place > 0 && sessions[place - 1]!.atMs > session.atMs) place -= 1;
  sessions.splice(place, 0, session);
}

function answerAsk(evening: Evening, { at }: LineOf<"ask">): DemandAnswer {
  const { input } = evening;
  const { run, ahead } = forecastDemand(evening.run, input, at.atMs, input.plan.closeAtMs);
  evening.run = run;
  const last = ahead.stepsAtMs.length - 1;
  const sheetsLeft = evening.sheets.leftAt(at.atMs);
  const emptyAt = (share: number) => {
    const atMs = emptyAtMs(ahead, sheetsLeft, share);
    return atMs === null ? null : new Date(atMs).toISOString();
  };
  return {
    at: at.text,
    sheetsLeft,
    demandToEnd: {
      p10: rounded(ahead.quantile(last, 0.1)),
      p50: rounded(ahead.quantile(last, 0.5)),
      p90: rounded(ahead.quantile(last, 0.9)),
      mean: rounded(ahead.mean(last)),
    },
    emptyAt: { p10: emptyAt(0.1), p50: emptyAt(0.5), p90: emptyAt(0.9) },
    lastsChance: rounded(ahead.atMost(last, sheetsLeft)),
  };
}

function rounded(figure: number): number {
  return Math.round(figure * 10_000) / 10_000;
}
