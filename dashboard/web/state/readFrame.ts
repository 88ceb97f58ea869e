import { liveFrame } from "@boothward/shared-types/view";
import type { LiveFrame } from "@boothward/shared-types/view";
import "./zodSettings.ts";

/** A frame, or null for what this version of the page cannot read: a newer dashboard may say more. */
export function readFrame(text: unknown): LiveFrame | null {
  try {
    const read = liveFrame.safeParse(JSON.parse(String(text)));
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}
