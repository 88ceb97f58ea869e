import type { BoothState } from "./boothState.ts";

/** When rolls were put in, oldest first. */
export function fittedAt({ media }: Pick<BoothState, "media">): readonly number[] {
  return media.changes.flatMap(({ base }) => (base.basis === "off" ? [] : [base.atMs]));
}
