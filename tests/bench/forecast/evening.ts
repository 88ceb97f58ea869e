import type { Shape } from "./eveningShape.ts";
import type { PastLine, PlanLine } from "./replayLines.ts";

/** One evening that a forecast is tried on, and all that is known of it afterwards. Instants are Unix ms. */
export type Evening = {
  readonly family: string;
  readonly startAtMs: number;
  readonly endAtMs: number;
  readonly plan: PlanLine;
  readonly past: readonly PastLine[];
  /** Finished between start and end, in order. */
  readonly sessions: readonly { readonly atMs: number; readonly sheets: number }[];
  /** Stops that the forecast is told of. */
  readonly toldStops: readonly { readonly fromAtMs: number; readonly toAtMs: number }[];
  /** For the baselines only: how evenings of the kind usually go. */
  readonly usualShape: Shape;
  /** For the baselines only: sheets that a planner would count on before the opening. */
  readonly plannedSheets: number;
};

/** All sheets of the evening. */
export function totalSheets({ sessions }: Evening): number {
  return sessions.reduce((sum, { sheets }) => sum + sheets, 0);
}
