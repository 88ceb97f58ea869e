import type { ClockSample } from "@boothward/shared-types";
import { unknownClock, withSample, type BootClock } from "./bootClock.ts";

/** A clock that stays in the future is written down once a minute, not with each batch. */
const doubtEveryMs = 60_000;

/** The clocks of all boots of one agent, and which of them runs now. */
export type AgentClocks = {
  /** The clock of the boot that greeted last; null before the first greeting. */
  present(): BootClock | null;
  ofBoot(bootId: string): BootClock;
  begin(bootId: string, known: readonly BootClock[]): void;
  /** Takes a sample of the present boot and gives its clock as it is now. */
  addSample(sample: ClockSample): BootClock | null;
  /** Notes that an item claimed the future; gives the clock when that is to be written down. */
  addDoubt(bootId: string, atMs: number): BootClock | null;
};

export function agentClocks(): AgentClocks {
  const clocks = new Map<string, BootClock>();
  let presentId: string | null = null;
  const ofBoot = (bootId: string) => clocks.get(bootId) ?? unknownClock(bootId);
  const keep = (clock: BootClock) => {
    clocks.set(clock.bootId, clock);
    return clock;
  };

  return {
    ofBoot,
    present: () => (presentId === null ? null : ofBoot(presentId)),
    begin(bootId, known) {
      presentId = bootId;
      known.forEach(keep);
    },
    addSample: (sample) => (presentId === null ? null : keep(withSample(ofBoot(presentId), sample))),
    addDoubt(bootId, atMs) {
      const clock = ofBoot(bootId);
      if (clock.doubtfulAtMs !== null && atMs - clock.doubtfulAtMs < doubtEveryMs) return null;
      return keep({ ...clock, doubtfulAtMs: atMs });
    },
  };
}
