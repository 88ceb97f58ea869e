import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { JobLedger, JobNames } from "../../../../agent/sources/ipp/jobLedger.ts";
import { firstUnsettled, openLedger, renumbered, settle } from "../../../../agent/sources/ipp/jobLedger.ts";
import type { JobSeen } from "../../../../agent/sources/ipp/operations.ts";

function aJob(jobId: number, state: number): JobSeen {
  return {
    jobId,
    uuid: `job-${jobId}`,
    state,
    copies: 1,
    impressions: 1,
    createdAtS: 1_900_000_000 + jobId,
    completedAtS: null,
    upTimeS: null,
    media: [],
  };
}
const pending = (jobId: number): JobSeen => aJob(jobId, 3);
const completed = (jobId: number): JobSeen => aJob(jobId, 9);
const namesOf = (job: JobSeen): JobNames => ({
  jobKey: String(job.uuid),
  printId: `${job.uuid}@${job.completedAtS}`,
});

/** One look at a queue, the finished jobs asked for from where the ledger says. */
function look(
  ledger: JobLedger,
  active: JobSeen[],
  finished: JobSeen[],
): { told: number[]; next: JobLedger } {
  const from = firstUnsettled(ledger, active);
  const listed = finished.filter((job) => job.jobId >= from);
  const { prints, next } = settle(ledger, active, listed, namesOf);
  return { told: prints.map(({ job }) => job.jobId), next };
}

describe("which jobs are told", () => {
  test("a job held for long does not make the whole history be listed again and again", () => {
    const ledger = openLedger([5], [1, 2, 3, 4]);
    const first = look(ledger, [pending(5)], [completed(6), completed(7)]);
    expect(first.told).toEqual([6, 7]);
    expect(firstUnsettled(first.next, [pending(5)])).toBe(8);
    expect(look(first.next, [], [completed(5), completed(6), completed(7)]).told).toEqual([5]);
  });
  test("a job made between the two lists, with a later one that is done, is not lost", () => {
    // Active is read as empty; then 1 (long) and 2 (short) come, and 2 is done when the finished are read.
    const first = look(openLedger([], []), [], [completed(2)]);
    expect(first.told).toEqual([2]);
    expect(look(first.next, [pending(1)], [completed(2)]).told).toEqual([]);
    expect(look(first.next, [], [completed(1), completed(2)]).told).toEqual([1]);
  });
  test("a job that finishes between the two lists is told once", () => {
    const first = look(openLedger([1], []), [pending(1)], [completed(1)]);
    const second = look(first.next, [], [completed(1)]);
    const third = look(second.next, [], [completed(1)]);
    expect([first.told, second.told, third.told]).toEqual([[], [1], []]);
  });
  test("numbers of other queues are looked for once and then let go", () => {
    const first = look(openLedger([], []), [], [completed(9)]);
    expect(firstUnsettled(first.next, [])).toBe(1);
    const second = look(first.next, [], [completed(9)]);
    expect(firstUnsettled(second.next, [])).toBe(10);
  });
  test("a history that was wiped and begins again at 1 is told", () => {
    const before = look(openLedger([], [40]), [], [completed(41)]).next;
    const anew = renumbered(before, [1]);
    expect(anew.restarts).toBe(1);
    expect(look(anew, [], [{ ...completed(1), uuid: "another-1" }]).told).toEqual([1]);
  });
  test("a history that lost its latest job tells no earlier one again", () => {
    const before = look(openLedger([], [39]), [], [completed(40), completed(41)]).next;
    expect(look(renumbered(before, [39, 40]), [], [completed(40)]).told).toEqual([]);
  });
});

test("a job that is printed again is another print, of the impressions added since", () => {
  const first = look(openLedger([], []), [], [{ ...completed(1), impressions: 3, completedAtS: 100 }]);
  const again = look(first.next, [pending(1)], []).next;
  const second = settle(again, [], [{ ...completed(1), impressions: 5, completedAtS: 160 }], namesOf);
  expect(second.prints.map(({ job }) => job.impressions)).toEqual([2]);
});

/** What a booth program and the printer may do, in any order, with looks and crashes in between. */
const steps = fc.array(fc.constantFrom("submit", "finishOldest", "finishNewest", "cancel", "look", "crash"), {
  minLength: 1,
  maxLength: 80,
});

test("whatever happens between looks, each completed job is told exactly once", () => {
  fc.assert(
    fc.property(steps, (happenings) => {
      let active: number[] = [];
      const finished: JobSeen[] = [];
      const told: number[] = [];
      let ledger = openLedger([], []);
      let lastId = 0;
      const end = (jobId: number | undefined, state: number): void => {
        if (jobId === undefined) return;
        active = active.filter((each) => each !== jobId);
        finished.push(aJob(jobId, state));
      };
      for (const step of [...happenings, "look", "look"]) {
        if (step === "submit") active.push((lastId += 1));
        else if (step === "finishOldest") end(active[0], 9);
        else if (step === "finishNewest") end(active.at(-1), 9);
        else if (step === "cancel") end(active[0], 7);
        else {
          // A crash comes after the looks' result was kept: the ledger is read from its file again.
          const seen = look(ledger, active.map(pending), finished);
          told.push(...seen.told);
          ledger = step === "crash" ? (JSON.parse(JSON.stringify(seen.next)) as JobLedger) : seen.next;
        }
      }
      const made = finished.filter((job) => job.state === 9).map((job) => job.jobId);
      expect(told.toSorted((a, b) => a - b)).toEqual(made.toSorted((a, b) => a - b));
    }),
    { numRuns: 500 },
  );
});
