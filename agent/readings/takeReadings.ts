import type { Clock, FaultWord, NewItem } from "@boothward/shared-types";
import type { Log } from "../log.ts";
import type { AppendItem } from "../outbox/outbox.ts";
import type { Source, SourceAnswer, SourceItem } from "./source.ts";

export type TakeReadingsOptions = {
  readonly sources: readonly Source[];
  readonly clock: Clock;
  /** Resolves when the items are durable. */
  readonly append: (items: readonly AppendItem[]) => Promise<void>;
  readonly log: Log;
};

/** Longest detail of a fault that an item may carry. */
const maxDetail = 200;

/**
 * Runs the sources: stamps what they see and appends it to the outbox.
 *
 * A source's first answer, and every change between a value and a fault or from one fault to another, is
 * told by a `sourceState` fact. A source that cannot start is a fault too, and disturbs no other.
 */
export function takeReadings(options: TakeReadingsOptions): { close(): Promise<void> } {
  const { sources, log } = options;
  for (const source of sources) void startSource(source, options);
  return {
    async close() {
      const closings = await Promise.allSettled(sources.map((source) => source.close()));
      for (const closing of closings)
        if (closing.status === "rejected")
          log.warn({ error: String(closing.reason) }, "a source did not close");
    },
  };
}

async function startSource(source: Source, { clock, append, log }: TakeReadingsOptions): Promise<void> {
  let lastFault: FaultWord | null | undefined;

  async function take(answer: SourceAnswer): Promise<boolean> {
    const fault = "fault" in answer ? answer.fault : null;
    const found: SourceItem[] = fault === lastFault ? [] : [{ item: stateItem(answer) }];
    if (fault !== lastFault) say(answer);
    lastFault = fault;
    if ("items" in answer) found.push(...answer.items);
    if (found.length === 0) return true;
    try {
      await append(stampAll(found, source.name, clock));
      return true;
    } catch (error) {
      log.error({ source: source.name, error: String(error) }, "items could not be kept");
      return false;
    }
  }

  function say(answer: SourceAnswer): void {
    const fields = { source: source.name };
    if ("fault" in answer) {
      const { fault, detail } = answer;
      log.warn({ ...fields, fault, detail }, `${source.name} has no value: ${fault}, ${detail}`);
    } else if (lastFault) log.info(fields, `${source.name} has a value again`);
  }

  try {
    await source.start(take);
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    await take({ fault: "unreadable", detail });
  }
}

function stateItem(answer: SourceAnswer): NewItem {
  const state = { class: "fact", kind: "sourceState" } as const;
  return "fault" in answer
    ? { ...state, fault: answer.fault, detail: answer.detail.slice(0, maxDetail) }
    : { ...state, fault: null, detail: null };
}

function stampAll(found: readonly SourceItem[], name: string, clock: Clock): AppendItem[] {
  const now = clock();
  return found.map(({ item, agoMs = 0, clock: at = now, source = name, mark }) => ({
    ...item,
    source,
    atMs: at.wallMs - agoMs,
    monoMs: at.monoMs - agoMs,
    ...(mark === undefined ? {} : { mark }),
  }));
}
