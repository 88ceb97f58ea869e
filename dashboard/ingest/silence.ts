import { beatEveryMs } from "@boothward/shared-types";

/** One or two beats are lost on any venue's network; after three the line is dead. */
const missedBeats = 3;

/** Whether a link that was last heard at this instant of a steady clock has to be hung up. */
export function isSilentTooLong(heardMonoMs: number, nowMonoMs: number): boolean {
  return nowMonoMs - heardMonoMs > missedBeats * beatEveryMs;
}
