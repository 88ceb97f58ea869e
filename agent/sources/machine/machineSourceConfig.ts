import * as z from "zod";

/** Settings of the look at how this computer is set for the night. */
export const machineSourceConfig = z.strictObject({
  kind: z.literal("machine"),
  name: z.string().min(1).max(80).default("machine"),
  /** An update waits for hours, and a setting that was mended should be seen before the crew has moved on. */
  everyMs: z.int().min(5_000).max(3_600_000).default(120_000),
});
export type MachineSourceConfig = z.infer<typeof machineSourceConfig>;
