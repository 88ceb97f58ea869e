import * as z from "zod";

/** Settings of a printer as Windows' print spooler shows it. */
export const spoolerSourceConfig = z
  .strictObject({
    kind: z.literal("spooler"),
    name: z.string().min(1).max(80).default("printer"),
    /** The printer's name as Windows lists it; `agent survey` shows the names. */
    queue: z.string().min(1).max(200),
    /** A sheet takes 8 to 20 s, so that a job is seen a few times; a look costs Windows tens of milliseconds. */
    everyMs: z.int().min(200).max(60_000).default(2_000),
    /**
     * A PowerShell that has said nothing for this long hangs and is started anew. Its first word may take three
     * times as long: a small tablet that has just been switched on is busy with itself.
     */
    silentMs: z.int().min(500).max(600_000).default(20_000),
    /** A PowerShell that has ended is started anew after this long, then twice as long each time, up to a minute. */
    restartMs: z.int().min(50).max(60_000).default(1_000),
    /** 4x6 lengths one printed page uses: 1 for 4x6 and a pair of strips, 2 for 6x8. The spooler does not say. */
    pitchesPerPage: z.number().min(0.5).max(10).default(1),
  })
  .refine(({ silentMs, everyMs }) => silentMs > 2 * everyMs, {
    path: ["silentMs"],
    error: "must be more than twice everyMs",
  });
export type SpoolerSourceConfig = z.infer<typeof spoolerSourceConfig>;
