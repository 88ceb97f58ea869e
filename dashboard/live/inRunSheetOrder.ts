import type { BoothView } from "@boothward/shared-types";

/** Booths as their events open, those without one last; otherwise as they were. */
export function inRunSheetOrder(booths: readonly BoothView[]): BoothView[] {
  const openAtMs = (booth: BoothView) => booth.booking?.openAtMs ?? Number.MAX_SAFE_INTEGER;
  return [...booths].sort((a, b) => openAtMs(a) - openAtMs(b));
}
