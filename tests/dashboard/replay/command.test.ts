import { spawn } from "node:child_process";
import { once } from "node:events";
import { resolve } from "node:path";
import { createInterface } from "node:readline";
import { describe, expect, it } from "vitest";

const program = resolve(import.meta.dirname, "../../../dashboard/dist/replay.mjs");
const plan = {
  ...{ kind: "plan", start: "2026-06-06T17:00:00Z", end: "2026-06-06T22:00:00Z", guests: 120 },
  ...{ pattern: "party", sheetsLoaded: 300, sheetsPerSession: null },
};
const ask = { kind: "ask", at: "2026-06-06T18:00:00Z" };

function startReplay(...args: string[]) {
  const child = spawn(process.execPath, [program, ...args], { stdio: "pipe" });
  let complaints = "";
  child.stderr.on("data", (bytes: Buffer) => (complaints += bytes.toString()));
  const answers = createInterface({ input: child.stdout });
  return {
    say: (line: unknown) => child.stdin.write(`${JSON.stringify(line)}\n`),
    nextAnswer: async () => JSON.parse(String((await once(answers, "line"))[0])) as { at: string },
    end: async () => {
      const exit = once(child, "exit");
      child.stdin.end();
      return { code: (await exit)[0] as number, complaints };
    },
  };
}

describe("the command that replays an evening", () => {
  it("answers an ask while more lines are still to come, and ends well", async () => {
    const replay = startReplay("demand");
    replay.say(plan);
    replay.say(ask);
    expect((await replay.nextAnswer()).at).toBe(ask.at);
    replay.say({ ...ask, at: "2026-06-06T19:00:00Z" });
    expect((await replay.nextAnswer()).at).toBe("2026-06-06T19:00:00Z");
    expect(await replay.end()).toEqual({ code: 0, complaints: "" });
  });

  it("says which line and field is wrong, and ends with a code that is not zero", async () => {
    const replay = startReplay("demand");
    replay.say({ ...plan, sheetsLoaded: "two rolls" });
    const { code, complaints } = await replay.end();
    expect(code).toBe(1);
    expect(complaints).toContain('line 1: field "sheetsLoaded" is "two rolls"');
  });

  it("says what it can play when it is asked for something else", async () => {
    const { code, complaints } = await startReplay("weather").end();
    expect(code).toBe(1);
    expect(complaints).toContain('there is no "weather"');
  });
});
