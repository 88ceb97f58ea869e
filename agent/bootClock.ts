import type { Clock } from "@boothward/shared-types";

/** Wall and steady clock parting by more than this is a step of the wall clock, or sleep ([T6]). */
export const mostPartingMs = 2_000;

/**
 * A clock that, whenever it is read, looks whether the wall clock has parted from the steady one since the
 * boot began, and says by how much before it gives its reading.
 */
export function watchedClock(real: Clock, onStep: (stepMs: number) => void): Clock {
  const start = real();
  let apartMs = start.wallMs - start.monoMs;
  return () => {
    const now = real();
    const stepMs = now.wallMs - now.monoMs - apartMs;
    if (Math.abs(stepMs) > mostPartingMs) {
      apartMs += stepMs;
      onStep(stepMs);
    }
    return now;
  };
}
