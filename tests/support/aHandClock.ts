import type { Clock } from "@boothward/shared-types";

/** A clock that stands still until the test moves it; wall and steady clock move together. */
export function aHandClock(wallMs = Date.UTC(2031, 5, 14, 18)): { clock: Clock; pass(ms: number): void } {
  let passedMs = 0;
  return {
    clock: () => ({ wallMs: wallMs + passedMs, monoMs: passedMs }),
    pass: (ms) => void (passedMs += ms),
  };
}
