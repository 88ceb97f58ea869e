import { describe, expect, it } from "vitest";
import { groupCommit } from "../../../dashboard/ingest/groupCommit.ts";

describe("group commit", () => {
  it("[I4] has what came in one turn committed together, and answers each only after that", async () => {
    const groups: string[][] = [];
    let finish: () => void = () => undefined;
    const disk = new Promise<void>((resolve) => (finish = resolve));
    const { add } = groupCommit(async (batches: readonly string[]) => {
      groups.push([...batches]);
      await disk;
      return batches.map((batch) => `stored ${batch}`);
    });
    const answered: string[] = [];
    const all = ["a", "b", "c"].map((batch) => add(batch).then((answer) => answered.push(answer)));
    await new Promise((resolve) => setImmediate(resolve));
    expect(groups).toEqual([["a", "b", "c"]]);
    expect(answered).toEqual([]);
    finish();
    await Promise.all(all);
    expect(answered).toEqual(["stored a", "stored b", "stored c"]);
  });

  it("gathers what comes while a group is committed into the next one", async () => {
    const groups: string[][] = [];
    const { add, idle } = groupCommit((batches: readonly string[]) => {
      groups.push([...batches]);
      if (groups.length === 1) for (const batch of ["b", "c"]) void add(batch);
      return Promise.resolve(batches);
    });
    await add("a");
    await idle();
    expect(groups).toEqual([["a"], ["b", "c"]]);
  });

  it("[I4] rejects only the batch that cannot be stored", async () => {
    const { add } = groupCommit((batches: readonly string[]) =>
      batches.includes("bad") ? Promise.reject(new Error("disk full")) : Promise.resolve(batches),
    );
    const settled = await Promise.allSettled(["good", "bad", "fine"].map(add));
    expect(settled.map(({ status }) => status)).toEqual(["fulfilled", "rejected", "fulfilled"]);
  });

  it("goes on after a group that failed", async () => {
    const { add } = groupCommit((batches: readonly string[]) =>
      batches.includes("bad") ? Promise.reject(new Error("disk full")) : Promise.resolve(batches),
    );
    await expect(add("bad")).rejects.toThrow("disk full");
    expect(await add("good")).toBe("good");
  });
});
