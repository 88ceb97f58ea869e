import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Clock, NewItem } from "@boothward/shared-types";
import type { Source, SourceAnswer, SourceItem } from "../../agent/readings/source.ts";

/** Everything a running source has said, and ways to ask for it. */
export type WatchedSource = {
  readonly answers: SourceAnswer[];
  /** What the outbox could not take. */
  readonly refused: SourceAnswer[];
  items<Kind extends NewItem["kind"]>(kind: Kind): Extract<NewItem, { kind: Kind }>[];
  sourceItems(kind: NewItem["kind"]): SourceItem[];
  /** Its fault now; null while it has a value, or has not spoken yet. */
  fault(): string | null;
  close(): Promise<void>;
};

/** Starts a source. What it says is kept, unless `isKept` says that the outbox cannot take it. */
export async function watchSource(
  source: Source,
  isKept: () => boolean = () => true,
): Promise<WatchedSource> {
  const answers: SourceAnswer[] = [];
  const refused: SourceAnswer[] = [];
  await source.start((answer) => {
    const kept = isKept();
    (kept ? answers : refused).push(answer);
    return Promise.resolve(kept);
  });
  const sourceItems = (kind: NewItem["kind"]): SourceItem[] =>
    answers
      .flatMap((answer) => ("items" in answer ? answer.items : []))
      .filter((each) => each.item.kind === kind);
  return {
    answers,
    refused,
    sourceItems,
    items: <Kind extends NewItem["kind"]>(kind: Kind) =>
      sourceItems(kind).map((each) => each.item as Extract<NewItem, { kind: Kind }>),
    fault() {
      const last = answers.at(-1);
      return last && "fault" in last ? last.fault : null;
    },
    close: () => source.close(),
  };
}

/** The clocks of this computer, for sources that talk to real programs. */
export const realClock: Clock = () => ({ wallMs: Date.now(), monoMs: performance.now() });

/** A folder of the test's own and how to be rid of it. */
export async function tempFolder(): Promise<{ path: string; remove(): Promise<void> }> {
  const path = await mkdtemp(join(tmpdir(), "boothward-test-"));
  return { path, remove: () => rm(path, { recursive: true, force: true }) };
}
