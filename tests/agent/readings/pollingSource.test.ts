import { expect, test } from "vitest";
import { pollingSource } from "../../../agent/readings/pollingSource.ts";
import type { SourceAnswer } from "../../../agent/readings/source.ts";
import { until } from "../../support/until.ts";
import { watchSource } from "../../support/watchSource.ts";

const nothing: SourceAnswer = { items: [] };

test("reads at once and again", async () => {
  let reads = 0;
  const watched = await watchSource(
    pollingSource({
      name: "each",
      everyMs: 1,
      read() {
        reads += 1;
        return Promise.resolve(nothing);
      },
    }),
  );
  expect(reads).toBe(1);
  await until(() => reads >= 3, "it reads on");
  await watched.close();
  expect(watched.answers.every((answer) => "items" in answer)).toBe(true);
});

test("a thrown error is the fault unreadable, and the next read ends it", async () => {
  let reads = 0;
  const watched = await watchSource(
    pollingSource({
      name: "torn",
      everyMs: 1,
      read: () => (++reads === 1 ? Promise.reject(new Error("torn cable")) : Promise.resolve(nothing)),
    }),
  );
  await until(() => watched.answers.length >= 2, "it reads again");
  await watched.close();
  expect(watched.answers.slice(0, 2)).toEqual([{ fault: "unreadable", detail: "torn cable" }, nothing]);
});

test("a read that hangs is the fault timeout, is told so, and is not overlapped by another", async () => {
  let reads = 0;
  let signal: AbortSignal | null = null;
  let letGo: () => void = () => undefined;
  const watched = await watchSource(
    pollingSource({
      name: "hung",
      everyMs: 1,
      timeoutMs: 20,
      async read(given) {
        reads += 1;
        signal ??= given;
        if (reads === 1) await new Promise<void>((resolve) => (letGo = resolve));
        return nothing;
      },
    }),
  );
  await until(() => watched.fault() === "timeout", "the fault is told");
  expect(signal).toMatchObject({ aborted: true });
  expect(reads).toBe(1);
  letGo();
  await until(() => watched.fault() === null, "it reads again");
  await watched.close();
  // What the late read brought is not told: it may be old.
  expect(watched.answers[0]).toMatchObject({ fault: "timeout" });
});

test("what was read is remembered only once it is kept", async () => {
  let isKept = false;
  let remembered = 0;
  const watched = await watchSource(
    pollingSource({
      name: "kept",
      everyMs: 1,
      read: () => Promise.resolve(nothing),
      kept() {
        remembered += 1;
        return Promise.resolve();
      },
    }),
    () => isKept,
  );
  await until(() => watched.refused.length >= 3, "the outbox refuses");
  expect(remembered).toBe(0);
  isKept = true;
  await until(() => remembered > 0, "it is remembered");
  await watched.close();
});

test("a memory that cannot be written is a fault that says so", async () => {
  const watched = await watchSource(
    pollingSource({
      name: "full",
      everyMs: 1,
      read: () => Promise.resolve(nothing),
      kept: () => Promise.reject(new Error("ENOSPC")),
    }),
  );
  await until(() => watched.fault() === "unreadable", "the fault is told");
  await watched.close();
  const fault = watched.answers.find((answer) => "fault" in answer);
  expect(fault).toEqual({ fault: "unreadable", detail: "what was seen cannot be remembered: ENOSPC" });
});

test("it is woken long before its time", async () => {
  let reads = 0;
  let wake: () => void = () => undefined;
  const watched = await watchSource(
    pollingSource({
      name: "woken",
      everyMs: 3_600_000,
      watch: (callBack) => (wake = callBack),
      read() {
        reads += 1;
        return Promise.resolve(nothing);
      },
    }),
  );
  await until(() => watched.answers.length === 1, "the first read is done");
  wake();
  await until(() => reads === 2, "it reads again");
  await watched.close();
});

test("a read that ends after the close is not told", async () => {
  let letGo: () => void = () => undefined;
  let hasEnded = false;
  const watched = await watchSource(
    pollingSource({
      name: "closed",
      everyMs: 1,
      async read() {
        await new Promise<void>((resolve) => (letGo = resolve));
        hasEnded = true;
        return nothing;
      },
    }),
  );
  await watched.close();
  letGo();
  await until(() => hasEnded, "the read ends");
  await new Promise((resolve) => setImmediate(resolve));
  expect(watched.answers).toEqual([]);
});
