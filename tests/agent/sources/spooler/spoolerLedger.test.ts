import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { SpoolerLedger } from "../../../../agent/sources/spooler/spoolerLedger.ts";
import { openSpoolerLedger, settleSpoolerJobs } from "../../../../agent/sources/spooler/spoolerLedger.ts";
import type { WindowsJob } from "../../../../agent/sources/spooler/spoolerLine.ts";

const printIdOf = ({ JobId }: WindowsJob): string => `print-${JobId}`;

function aJob(JobId: number, over: Partial<WindowsJob> = {}): WindowsJob {
  const figures = { StatusMask: 0x10, PagesPrinted: 0, TotalPages: 1, TimeSubmitted: 1_000 * JobId };
  return { Name: `Booth, ${JobId}`, JobId, ...figures, ...over };
}

/** Looks at a queue, one list of jobs a look; the prints each told, as "id x pages". */
function looks(...lists: WindowsJob[][]): string[][] {
  let ledger: SpoolerLedger = openSpoolerLedger([], printIdOf);
  return lists.map((jobs) => {
    const { prints, next } = settleSpoolerJobs(ledger, jobs, printIdOf);
    ledger = JSON.parse(JSON.stringify(next)) as SpoolerLedger;
    return prints.map(({ printId, pages }) => `${printId} x${pages}`);
  });
}

/** What is told of a job that has gone after it was last seen like this. */
const goneAfter = (over: Partial<WindowsJob>): string[] => looks([aJob(1)], [aJob(1, over)], [])[2] ?? [];

describe("a job that has gone", () => {
  test.each([
    ["printing", 0x10],
    ["taken in", 0x8],
    ["without any bit", 0],
    ["complete", 0x1000],
    ["kept and complete", 0x3000],
  ])("and was last seen %s is printed", (_, StatusMask) => {
    expect(goneAfter({ StatusMask })).toEqual(["print-1 x1"]);
  });
  test.each([
    ["being deleted", 0x4],
    ["deleted", 0x100],
    ["in error", 0x12],
    ["offline", 0x20],
    ["without paper", 0x50],
    ["blocked", 0x200],
    ["wanting a person", 0x400],
    ["paused", 0x1],
  ])("and was last seen %s is not", (_, StatusMask) => {
    expect(goneAfter({ StatusMask })).toEqual([]);
  });
  test("and was being deleted when all its pages were printed is", () => {
    expect(goneAfter({ StatusMask: 0x104, PagesPrinted: 1 })).toEqual(["print-1 x1"]);
    expect(goneAfter({ StatusMask: 0x104, PagesPrinted: 1, TotalPages: 2 })).toEqual([]);
  });
  test("and said that it was printed has been told by then", () => {
    expect(looks([aJob(1)], [aJob(1, { StatusMask: 0x180 })], [])).toEqual([[], ["print-1 x1"], []]);
  });
});

test("trouble that was put right spoils nothing", () => {
  const out = aJob(1, { StatusMask: 0x50 });
  expect(looks([aJob(1)], [out], [out], [aJob(1)], [])).toEqual([[], [], [], [], ["print-1 x1"]]);
});

test("pages are the most it ever said", () => {
  const lists = [1, 3, 0].map((TotalPages) => [aJob(1, { TotalPages })]);
  expect(looks(...lists, []).at(-1)).toEqual(["print-1 x3"]);
  expect(looks([aJob(1, { TotalPages: 0, PagesPrinted: 2 })], []).at(-1)).toEqual(["print-1 x2"]);
});

test("a job that goes and comes back is told once", () => {
  expect(looks([aJob(1)], [], [aJob(1)], []).flat()).toEqual(["print-1 x1"]);
});

/** What a booth program, people and Windows may do between looks. */
const steps = fc.array(
  fc.constantFrom("submit", "finish", "keep", "cancel", "outOfPaper", "newRoll", "look", "crash"),
  { minLength: 1, maxLength: 100 },
);

test("whatever happens, each job that was seen and finished well is told exactly once", () => {
  fc.assert(
    fc.property(steps, (happenings) => {
      let queue: WindowsJob[] = [];
      const seen = new Set<number>();
      const good: number[] = [];
      const told: string[] = [];
      let ledger = openSpoolerLedger([], printIdOf);
      let lastId = 0;
      const mark = (StatusMask: number): void => {
        queue = queue.map((job, i) => (i === 0 && job.StatusMask !== 0x80 ? { ...job, StatusMask } : job));
      };
      for (const step of [...happenings, "look", "look"]) {
        const [first] = queue;
        if (step === "submit") queue.push(aJob((lastId += 1)));
        else if (step === "outOfPaper") mark(0x50);
        else if (step === "newRoll") mark(0x10);
        else if (step === "finish" && first?.StatusMask === 0x10 && seen.has(first.JobId)) {
          // Finished and gone; that it was well must have been seen, as at a change of rolls it always is.
          const last = ledger.open.find(({ printId }) => printId === printIdOf(first));
          if (last?.statusMask !== 0x10) continue;
          good.push(first.JobId);
          queue.shift();
        } else if (step === "keep" && first?.StatusMask === 0x10) {
          good.push(first.JobId);
          queue = [...queue.slice(1), { ...first, StatusMask: 0x80 }];
        } else if (step === "cancel" && first && first.StatusMask !== 0x80) mark(0x14);
        else if (step === "look" || step === "crash") {
          const { prints, next } = settleSpoolerJobs(ledger, queue, printIdOf);
          told.push(...prints.map(({ printId }) => printId));
          ledger = step === "crash" ? (JSON.parse(JSON.stringify(next)) as SpoolerLedger) : next;
          for (const { JobId } of queue) seen.add(JobId);
          queue = queue.filter(({ StatusMask }) => StatusMask !== 0x14);
        }
      }
      expect(told.toSorted()).toEqual(good.map((id) => `print-${id}`).toSorted());
    }),
    { numRuns: 500 },
  );
});
