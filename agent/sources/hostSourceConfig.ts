import * as z from "zod";

/** Settings of the reading of this computer's own state. */
export const hostSourceConfig = z.strictObject({
  kind: z.literal("host"),
  name: z.string().min(1).max(80).default("host"),
  /** Memory, load, temperature and network are looked at this often; they cost well under 1 ms together. */
  everyMs: z.int().min(1_000).max(600_000).default(10_000),
  /** A pulled plug must be told before a tired battery is empty. */
  powerEveryMs: z.int().min(1_000).max(600_000).default(10_000),
  /** Disks fill slowly, and asking for their space may wake one. */
  diskEveryMs: z.int().min(1_000).max(3_600_000).default(60_000),
});
export type HostSourceConfig = z.infer<typeof hostSourceConfig>;
