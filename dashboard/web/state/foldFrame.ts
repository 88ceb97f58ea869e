import type { BoothView, LiveFrame } from "@boothward/shared-types/view";

/** Booths after a frame of the live socket, in the dashboard's order; a new booth comes last. */
export function foldFrame(booths: readonly BoothView[], frame: LiveFrame): readonly BoothView[] {
  switch (frame.kind) {
    case "all":
      return frame.booths;
    case "booth": {
      const isKnown = booths.some((booth) => booth.boothId === frame.booth.boothId);
      if (!isKnown) return [...booths, frame.booth];
      return booths.map((booth) => (booth.boothId === frame.booth.boothId ? frame.booth : booth));
    }
    case "gone":
      return booths.filter((booth) => booth.boothId !== frame.boothId);
    case "beat":
    case "own":
      return booths;
  }
}
