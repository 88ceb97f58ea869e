import type { SunStretch } from "@boothward/shared-types/site";

/** The stretches of sun that reach into these hours. */
export function sunWithin(sun: readonly SunStretch[], fromAtMs: number, toAtMs: number): SunStretch[] {
  return sun.filter((stretch) => stretch.toAtMs > fromAtMs && stretch.fromAtMs < toAtMs);
}
