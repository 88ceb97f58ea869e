import { afterEach, expect, test } from "vitest";
import { type Running, startProcess } from "../../seeds/startProcess.ts";

const started: Running[] = [];
afterEach(async () => {
  for (const running of started.splice(0)) await running.kill();
});

function runNode(program: string): Running {
  const running = startProcess({
    name: "child",
    command: process.execPath,
    args: ["-e", program],
    cwd: import.meta.dirname,
  });
  started.push(running);
  return running;
}

test("a line is seen whether it came before or after it was waited for", async () => {
  const child = runNode('console.log("ready on 8460"); setInterval(() => {}, 1000)');
  expect((await child.seeLine(/on (\d+)/, 20_000))[1]).toBe("8460");
  expect((await child.seeLine(/on (\d+)/, 20_000))[1]).toBe("8460");
});

test("a process that ends before the line is said with its last lines", async () => {
  const child = runNode('console.error("the port is taken"); process.exitCode = 3');
  await expect(child.seeLine(/ready/, 20_000)).rejects.toThrow(/child ended \(code 3\)[^]*the port is taken/);
  expect(child.isRunning()).toBe(false);
});

test("a process that does not say it in time is said to be late", async () => {
  const child = runNode("setInterval(() => {}, 1000)");
  await expect(child.seeLine(/ready/, 50)).rejects.toThrow("child took more than 50 ms");
});

test("stop lets a process end by itself", async () => {
  const child = runNode(
    'process.on("SIGTERM", () => { console.log("bye"); process.exit(0); }); setInterval(() => {}, 1000); console.log("up")',
  );
  await child.seeLine(/up/, 20_000);
  expect(await child.stop()).toEqual({ code: 0, signal: null });
  expect(child.lastLines(1)).toEqual(["bye"]);
});

test("stop ends a process that does not end by itself", async () => {
  const child = runNode('process.on("SIGTERM", () => {}); setInterval(() => {}, 1000); console.log("up")');
  await child.seeLine(/up/, 20_000);
  expect(await child.stop(50)).toEqual({ code: null, signal: "SIGKILL" });
});

test("a program that is not there ends with 127 and says so", async () => {
  const child = startProcess({
    name: "child",
    command: "no-such-program-here",
    args: [],
    cwd: import.meta.dirname,
  });
  expect(await child.ended).toEqual({ code: 127, signal: null });
  expect(child.lastLines(1)[0]).toMatch(/could not be started/);
});
