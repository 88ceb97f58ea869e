import type { Emit, Source, SourceAnswer } from "./source.ts";

/** What a poll is made of; `read` may throw, and is told by its signal when its time is up. */
export type Polling = {
  readonly name: string;
  /** From the end of one read to the beginning of the next. */
  readonly everyMs: number;
  /** Longest one read may take; `defaultReadTimeoutMs` when left out. */
  readonly timeoutMs?: number;
  read(signal: AbortSignal): Promise<SourceAnswer>;
  close?(): Promise<void>;
};

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
  let abort: AbortController | null = null;
  let isClosed = false;

  async function turn(emit: Emit): Promise<void> {
    abort = new AbortController();
    const { signal } = abort;
    const deadline = setTimeout(() => {
      abort?.abort();
      if (!isClosed) void emit({ fault: "timeout", detail: `no answer within ${timeoutMs} ms` });
    }, timeoutMs);
    const answer = await polling.read(signal).catch(asFault);
    clearTimeout(deadline);
    if (isClosed) return;
    if (!signal.aborted) await emit(answer);
    timer = setTimeout(() => void turn(emit), everyMs);
  }

  return {
    name,
    start: (emit) => void turn(emit),
    async close() {
      isClosed = true;
      if (timer) clearTimeout(timer);
      abort?.abort();
      await polling.close?.();
    },
  };
}

function asFault(error: unknown): SourceAnswer {
  return { fault: "unreadable", detail: error instanceof Error ? error.message : String(error) };
}
