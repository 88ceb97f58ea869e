import type { Clock } from "@boothward/shared-types";

/** Time that stands still until the test moves it: a clock, and call-backs that come when it has passed. */
export type HandTime = {
  readonly clock: Clock;
  readonly after: (ms: number, callBack: () => void) => () => void;
  /** Moves both clocks on, calling back whatever falls due, in order. */
  pass(ms: number): void;
  /** Moves the wall clock alone. */
  stepWall(ms: number): void;
};

type Due = { readonly atMs: number; readonly callBack: () => void };

export function handTime(wallMs = Date.UTC(2026, 5, 20, 18), monoMs = 1_000): HandTime {
  let wall = wallMs;
  let mono = monoMs;
  let dues: Due[] = [];
  const moveTo = (atMs: number): void => {
    wall += Math.max(0, atMs - mono);
    mono = Math.max(mono, atMs);
  };
  return {
    clock: () => ({ wallMs: wall, monoMs: mono }),
    after(ms, callBack) {
      const due = { atMs: mono + ms, callBack };
      dues.push(due);
      return () => void (dues = dues.filter((other) => other !== due));
    },
    pass(ms) {
      const endMs = mono + ms;
      for (;;) {
        const next = dues.filter((due) => due.atMs <= endMs).sort((a, b) => a.atMs - b.atMs)[0];
        if (!next) break;
        dues = dues.filter((due) => due !== next);
        moveTo(next.atMs);
        next.callBack();
      }
      moveTo(endMs);
    },
    stepWall: (ms) => void (wall += ms),
  };
}
