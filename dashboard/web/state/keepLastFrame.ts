import { batch, effect } from "@preact/signals";
import { greyAfterMs } from "./boothLook.ts";
import { readFrame } from "./readFrame.ts";
import { booths, heardAtMs, link, nowMs, upAtMs } from "./signals.ts";

const keptAs = "lastFrame";
/** A dashboard that has not answered a first time for so long is out of reach for a person who looks. */
const patienceMs = 5000;

/**
 * Keeps the last frame on the device, at most each quarter of a minute, and shows it with its age where the
 * dashboard cannot be reached from the start. A sign-out forgets it.
 */
export function keepLastFrame(
  kept: Pick<Storage, "getItem" | "setItem" | "removeItem">,
  after: (waitMs: number, run: () => void) => void,
): void {
  let hasHeard = false;
  effect(() => {
    if (upAtMs.value === null || heardAtMs.peek() === null) return;
    hasHeard = true;
    write(kept);
  });
  effect(() => {
    if (heardAtMs.value !== null) hasHeard = true;
    else if (hasHeard) {
      hasHeard = false;
      kept.removeItem(keptAs);
    }
  });
  const show = () => {
    if (heardAtMs.peek() !== null) return;
    const frame = readFrame(kept.getItem(keptAs) ?? "");
    if (frame?.kind !== "all") return;
    batch(() => {
      booths.value = frame.booths;
      // What was kept is of the past from the first look on, whatever this device's clock says.
      heardAtMs.value = Math.min(frame.nowMs, nowMs.peek() - greyAfterMs - 1);
    });
  };
  effect(() => {
    if (link.value === "down") show();
  });
  after(patienceMs, () => {
    if (link.peek() !== "up") show();
  });
}

function write(kept: Pick<Storage, "setItem">): void {
  const frame = { kind: "all", nowMs: heardAtMs.peek(), booths: booths.peek() };
  try {
    kept.setItem(keptAs, JSON.stringify(frame));
  } catch {
    // A full device keeps the one before.
  }
}
