import { describe, expect, it } from "vitest";
import { keepLive } from "../../../dashboard/web/state/live.ts";
import type { LiveSocket } from "../../../dashboard/web/state/live.ts";
import { readFrame } from "../../../dashboard/web/state/readFrame.ts";
import { eveningAtMs } from "../../support/aBoothView.ts";

const beat = JSON.stringify({ kind: "beat", nowMs: eveningAtMs });

/** A line whose sockets, waits and dice are in the test's hand. */
function aLine(dice = 1) {
  const sockets: (LiveSocket & { isClosed: boolean })[] = [];
  const waits: { waitMs: number; run: () => void; isOff: boolean }[] = [];
  const happened: string[] = [];
  const line = keepLive(
    {
      openSocket: () => {
        const socket = {
          onmessage: null,
          onclose: null,
          isClosed: false,
          close: () => {
            socket.isClosed = true;
          },
        } as LiveSocket & { isClosed: boolean };
        sockets.push(socket);
        return socket;
      },
      read: (text) => Promise.resolve(readFrame(text)),
      random: () => dice,
      after: (waitMs, run) => {
        const wait = { waitMs, run, isOff: false };
        waits.push(wait);
        return () => (wait.isOff = true);
      },
    },
    {
      frame: (frame) => happened.push(frame.kind),
      up: () => happened.push("up"),
      down: () => happened.push("down"),
    },
  );
  const newest = () => {
    const socket = sockets.at(-1);
    if (socket === undefined) throw new Error("no socket was opened");
    return socket;
  };
  return {
    line,
    sockets,
    happened,
    waiting: () => waits.filter((wait) => !wait.isOff),
    say: async (text: string) => {
      (newest().onmessage as ((message: { data: unknown }) => void) | null)?.({ data: text });
      await Promise.resolve();
      await Promise.resolve();
    },
    hangUp: () => (newest().onclose as (() => void) | null)?.(),
    pass: () => {
      const wait = waits.findLast((each) => !each.isOff);
      if (wait === undefined) throw new Error("nothing waits");
      wait.isOff = true;
      wait.run();
    },
  };
}

describe("the live line of a page", () => {
  it("is up with the first frame, not with the open socket", async () => {
    const page = aLine();
    expect(page.happened).toEqual([]);
    await page.say(beat);
    expect(page.happened).toEqual(["up", "beat"]);
  });

  it("comes back after a wait that doubles up to 15 s", () => {
    const page = aLine();
    const waits: number[] = [];
    for (let i = 0; i < 7; i += 1) {
      page.hangUp();
      waits.push(page.waiting().at(-1)?.waitMs ?? 0);
      page.pass();
    }
    expect(waits).toEqual([500, 1000, 2000, 4000, 8000, 15_000, 15_000]);
    expect(page.sockets).toHaveLength(8);
  });

  it("draws its wait by lot, between half and all of it", () => {
    const page = aLine(0);
    page.hangUp();
    expect(page.waiting().at(-1)?.waitMs).toBe(250);
  });

  it("waits briefly again once a frame has come", async () => {
    const page = aLine();
    page.hangUp();
    page.pass();
    page.hangUp();
    page.pass();
    await page.say(beat);
    page.hangUp();
    expect(page.waiting().at(-1)?.waitMs).toBe(500);
  });

  it("takes a line for dead that says nothing for three beats, and hangs up on it", async () => {
    const page = aLine();
    await page.say(beat);
    expect(page.waiting().map((wait) => wait.waitMs)).toEqual([35_000]);
    page.pass();
    expect(page.happened).toEqual(["up", "beat", "down"]);
    expect(page.sockets[0]?.isClosed).toBe(true);
  });

  it("does not count what it cannot read as a sign of life", async () => {
    const page = aLine();
    await page.say('{"kind":"all","booths":"none"}');
    expect(page.happened).toEqual([]);
  });

  it("tries at once when the phone wakes, and stays closed when closed", () => {
    const page = aLine();
    page.hangUp();
    page.line.wake();
    expect(page.sockets).toHaveLength(2);
    page.line.close();
    expect(page.waiting()).toEqual([]);
    expect(page.sockets[1]?.isClosed).toBe(true);
  });
});
