import { batch } from "@preact/signals";
import type { LiveFrame } from "@boothward/shared-types/view";
import { foldFrame } from "./foldFrame.ts";
import { keepLive } from "./live.ts";
import { booths, heardAtMs, link, own } from "./signals.ts";
import type { PageWorld } from "./pageWorld.ts";

/**
 * Keeps the signals fed by the live socket from `start` to `stop`. `askWho` runs when the line is lost: it may
 * be the sign-in that is over. What parses frames (zod) is fetched beside the first view, while the socket
 * connects.
 */
export function listenLive(
  world: PageWorld,
  setClock: (trueMs: number) => void,
  askWho: () => Promise<void>,
): { start: () => void; stop: () => void } {
  const { window } = world;
  let line: ReturnType<typeof keepLive> | null = null;
  void Promise.allSettled([import("./readFrame.ts"), import("./api.ts")]);

  const take = (frame: LiveFrame) =>
    batch(() => {
      setClock(frame.nowMs);
      heardAtMs.value = frame.nowMs;
      booths.value = foldFrame(booths.value, frame);
      if (frame.kind === "own") own.value = frame.own;
    });
  const stop = () => {
    line?.close();
    line = null;
    link.value = "asking";
  };
  const start = () => {
    stop();
    line = keepLive(
      {
        openSocket: () => new window.WebSocket(`${window.location.origin.replace("http", "ws")}/live`),
        read: async (text) => (await import("./readFrame.ts")).readFrame(text),
        random: world.random,
        after: (waitMs, run) => {
          const timer = window.setTimeout(run, waitMs);
          return () => window.clearTimeout(timer);
        },
      },
      {
        frame: take,
        up: () => (link.value = "up"),
        down: () => {
          link.value = "down";
          askWho().catch(() => {});
        },
      },
    );
  };
  const wake = () => {
    if (link.value !== "up") line?.wake();
  };
  window.addEventListener("online", wake);
  window.document.addEventListener("visibilitychange", () => {
    if (window.document.visibilityState === "visible") wake();
  });
  return { start, stop };
}
