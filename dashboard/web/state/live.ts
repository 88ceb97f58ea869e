import type { LiveFrame } from "@boothward/shared-types/view";

/**
 * What the live socket needs from the world. `openSocket` gives a fresh WebSocket to /live; `read` parses a
 * message, null for one that cannot be read.
 */
export type LiveWorld = {
  openSocket(): LiveSocket;
  read(text: unknown): Promise<LiveFrame | null>;
  random(): number;
  /** Runs once after a time; the answer calls it off. */
  after(waitMs: number, run: () => void): () => void;
};

/** The part of a WebSocket that is used. */
export type LiveSocket = Pick<WebSocket, "onmessage" | "onclose" | "close">;

export type LiveEvents = {
  frame(frame: LiveFrame): void;
  up(): void;
  down(): void;
};

/** First and longest wait before trying again. */
const firstWaitMs = 500;
const longestWaitMs = 15_000;
/** A line with no frame for this long is taken for dead: three of the dashboard's beats. */
const deadAfterMs = 35_000;

/**
 * Keeps a live socket open: tries again with a wait that doubles and is drawn by lot, so that many pages do
 * not come back at once, and hangs up on a line that has gone quiet. `wake` tries at once, for a phone that
 * was asleep.
 */
export function keepLive(world: LiveWorld, events: LiveEvents): { wake(): void; close(): void } {
  let waitMs = firstWaitMs;
  let socket: LiveSocket | null = null;
  let callOff = () => {};

  const drop = () => {
    callOff();
    if (socket === null) return;
    const old = socket;
    socket = null;
    old.onmessage = old.onclose = null;
    old.close();
  };
  const tryLater = () => {
    drop();
    events.down();
    callOff = world.after(waitMs * (0.5 + world.random() / 2), connect);
    waitMs = Math.min(waitMs * 2, longestWaitMs);
  };
  const watch = () => {
    callOff();
    callOff = world.after(deadAfterMs, tryLater);
  };
  const connect = () => {
    drop();
    const opened = world.openSocket();
    socket = opened;
    watch();
    const take = async (text: unknown) => {
      const frame = await world.read(text).catch(() => null);
      if (frame === null || socket !== opened) return;
      waitMs = firstWaitMs;
      watch();
      events.up();
      events.frame(frame);
    };
    opened.onmessage = (message: MessageEvent<unknown>) => void take(message.data);
    opened.onclose = tryLater;
  };

  connect();
  return {
    wake: () => {
      waitMs = firstWaitMs;
      connect();
    },
    close: drop,
  };
}
