import type { Emit, Source, SourceAnswer } from "./source.ts";

/** What a poll is made of; `read` may throw, and is told by its signal when its time is up. */
export type Polling = {
  readonly name: string;
  /** Longest time from the end of one read to the beginning of the next. */
  readonly everyMs: number;
  /** Longest one read may take; `defaultReadTimeoutMs` when left out. */
  readonly timeoutMs?: number;
  read(signal: AbortSignal): Promise<SourceAnswer>;
  /** Called when what was read is durable; what must be remembered is remembered here. */
  kept?(): Promise<void>;
  /** Time until the next read where that is sooner than `everyMs`. */
  nextMs?(): number;
  /** Called once at the start with a way to ask for a read soon. */
  watch?(wake: () => void): void;
  close?(): Promise<void>;
};

/** Whoever writes a large file slowly wakes a hundred times; ten reads a second are enough. */
const wakeAfterMs = 100;

/** A sensor on a slow bus takes up to 750 ms, a printer on a bad network a few seconds. */
export const defaultReadTimeoutMs = 10_000;

/**
 * Makes a source of a read function: reads at once and then each `everyMs`, and turns a thrown error into
 * the fault `unreadable` and a read that takes longer than `timeoutMs` into the fault `timeout`.
 *
 * A read that hangs is never overlapped by the next one, so that a dead disk cannot use up the threads
 * that the outbox writes with; the fault stays until the read ends.
 */
export function pollingSource(polling: Polling): Source {
  const { name, everyMs, timeoutMs = defaultReadTimeoutMs } = polling;
  let timer: NodeJS.Timeout | null = null;
  let reading: AbortController | null = null;
  let telling: Promise<void> = Promise.resolve();
  let isWoken = false;
  let isClosed = false;

  async function turn(emit: Emit): Promise<void> {
    timer = null;
    isWoken = false;
    reading = new AbortController();
    const { signal } = reading;
    const deadline = setTimeout(() => {
      reading?.abort();
      if (!isClosed) void emit({ fault: "timeout", detail: `no answer within ${timeoutMs} ms` });
    }, timeoutMs);
    const answer = await polling.read(signal).catch(asFault);
    clearTimeout(deadline);
    if (!signal.aborted) await (telling = tell(answer, emit));
    if (!isClosed) timer = setTimeout(() => void turn(emit), isWoken ? wakeAfterMs : nextMs());
  }

  async function tell(answer: SourceAnswer, emit: Emit): Promise<void> {
    try {
      if (await emit(answer)) await polling.kept?.();
    } catch (error) {
      const detail = error instanceof Error ? error.message : String(error);
      await emit({ fault: "unreadable", detail: `what was seen cannot be remembered: ${detail}` });
    }
  }

  const nextMs = (): number => Math.max(0, Math.min(everyMs, polling.nextMs?.() ?? everyMs));

  return {
    name,
    start(emit) {
      polling.watch?.(() => {
        if (isWoken || isClosed) return;
        isWoken = true;
        if (timer === null) return;
        clearTimeout(timer);
        timer = setTimeout(() => void turn(emit), wakeAfterMs);
      });
      void turn(emit);
    },
    async close() {
      isClosed = true;
      reading?.abort();
      if (timer) clearTimeout(timer);
      // What was read is remembered before the end; a read that is under way may hang and is not waited for.
      await telling;
      await polling.close?.();
    },
  };
}

function asFault(error: unknown): SourceAnswer {
  return { fault: "unreadable", detail: error instanceof Error ? error.message : String(error) };
}
