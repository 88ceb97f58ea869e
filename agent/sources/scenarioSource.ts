import type { Clock } from "@boothward/shared-types";
import type { Emit, Source, SourceItem } from "../readings/source.ts";
import type { Scenario, ScenarioItem } from "./scenarioFile.ts";

export type ScenarioSourceOptions = {
  readonly scenario: Scenario;
  /** True instant of the scenario's beginning, Unix ms. */
  readonly startedAtMs: number;
  /** How wrong the played wall clock is. */
  readonly wallErrorMs: number;
  /** The played clock: its steady part counts from the scenario's beginning. */
  readonly clock: Clock;
  /** The last mark in the outbox, where the play goes on; null: from the beginning. */
  readonly mark: string | null;
  readonly after: (ms: number, callBack: () => void) => () => void;
  readonly holdLink: (holdMs: number) => void;
};

/** Items handed on at once: the backlog of a whole evening must not be one piece. */
const chunkItems = 200;

/** Waiting time when the outbox could not keep a chunk. */
const retryMs = 1_000;

/**
 * Plays an invented event day: what lies in the past is handed on at once with its own past clock, the rest
 * when its time comes. Each item carries a mark, so that after a restart the play goes on without a repeat.
 */
export function scenarioSource(options: ScenarioSourceOptions): Source {
  const { scenario, startedAtMs, clock, after } = options;
  const play = `${scenario.name}@${startedAtMs}#`;
  const doneLine = options.mark?.startsWith(play) ? Number(options.mark.slice(play.length)) : 0;
  let next = 0;
  let isClosed = false;
  let turn: Promise<void> = Promise.resolve();
  let callOff: () => void = () => undefined;

  function stamped({ atMs, item, source, line }: ScenarioItem): SourceItem {
    const wallMs = startedAtMs + atMs + options.wallErrorMs;
    return { item, source, clock: { wallMs, monoMs: atMs }, mark: `${play}${line}` };
  }

  /** Entries that are due, up to one chunk; `end` is where the next chunk begins. */
  function due(): { items: SourceItem[]; end: number } {
    const items: SourceItem[] = [];
    const nowMs = clock().monoMs;
    let end = next;
    for (; items.length < chunkItems; end++) {
      const entry = scenario.entries[end];
      if (!entry || entry.atMs > nowMs) break;
      if ("holdMs" in entry) holdRest(entry.atMs + entry.holdMs - nowMs);
      else if (entry.line > doneLine) items.push(stamped(entry));
    }
    return { items, end };
  }

  function holdRest(restMs: number): void {
    if (restMs > 0) options.holdLink(restMs);
  }

  async function advance(emit: Emit): Promise<void> {
    for (;;) {
      const { items, end } = due();
      if (isClosed) return;
      const isKept = items.length === 0 || (await emit({ items }));
      if (isClosed) return;
      if (!isKept) return wakeIn(retryMs, emit);
      next = end;
      if (items.length < chunkItems) break;
    }
    const entry = scenario.entries[next];
    if (entry) wakeIn(Math.max(0, entry.atMs - clock().monoMs), emit);
  }

  function wakeIn(ms: number, emit: Emit): void {
    callOff = after(Math.ceil(ms), () => void (turn = advance(emit)));
  }

  return {
    name: "scenario",
    start: (emit) => void (turn = advance(emit)),
    async close() {
      isClosed = true;
      callOff();
      await turn;
    },
  };
}

/**
 * The clocks of a played day: the wall clock is wrong by `wallErrorMs`, the steady one counts from the
 * scenario's beginning on, also over a restart of the agent.
 */
export function scenarioClock(real: Clock, startedAtMs: number, wallErrorMs: number): Clock {
  const start = real();
  const sinceBeginningMs = start.wallMs - startedAtMs;
  return () => {
    const { wallMs, monoMs } = real();
    return { wallMs: wallMs + wallErrorMs, monoMs: sinceBeginningMs + (monoMs - start.monoMs) };
  };
}
