import type { Clock } from "@boothward/shared-types";

/** What a source is given beside its settings. */
export type Surroundings = {
  readonly clock: Clock;
  /** A folder of the agent's own, where a source keeps what it must know after a restart. */
  readonly stateFolder: string;
};
