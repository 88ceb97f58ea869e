import { nowMs } from "./signals.ts";
import type { PageWorld } from "./pageWorld.ts";

/** Ticks each second; true time is this device's clock plus how far it was off at the last frame. */
export function followClock(world: PageWorld): { set: (trueMs: number) => void } {
  let offMs = 0;
  const tick = () => (nowMs.value = world.localMs() + offMs);
  tick();
  world.window.setInterval(tick, 1000);
  return {
    set: (trueMs) => {
      offMs = trueMs - world.localMs();
      tick();
    },
  };
}
