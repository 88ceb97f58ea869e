import * as z from "zod";

/** The address a booth program is told; above the dashboard's own, and in no range that Windows hands out. */
export const defaultHookPort = 8465;

/** Settings of the calls by which a booth program itself says what happens. */
export const hookSourceConfig = z.strictObject({
  kind: z.literal("hook"),
  name: z.string().min(1).max(80).default("hook"),
  /** On 127.0.0.1 alone: nobody else on the venue's network can call. The booth program is told this number. */
  port: z.int().min(1).max(65_535).default(defaultHookPort),
  /** Left out: any program on this computer may call. A call carries it as "Authorization: Bearer" or as token. */
  token: z
    .string()
    .regex(/^[A-Za-z0-9._~-]{8,200}$/, "must be 8 to 200 letters, digits, dots, dashes or _ ~")
    .optional(),
  /**
   * An id that comes again within this time is the same session or print. After it, another one: some programs
   * number from 1 at each event.
   */
  sameIdHours: z.number().min(0.1).max(168).default(6),
  /** 4x6 lengths one copy uses, where a call names neither pitches nor size. */
  pitchesPerCopy: z.number().min(0.5).max(10).default(1),
});
export type HookSourceConfig = z.infer<typeof hookSourceConfig>;
