import * as z from "zod/mini";
import { toldLine } from "./told.ts";
import { alertView } from "./view.ts";

/** An alert with its story: who said what from which device, and who was told by which way. */
export const alertStory = z.object({
  alert: alertView,
  boothName: z.string(),
  closedAtMs: z.nullable(z.number()),
  log: z.array(
    z.object({
      atMs: z.number(),
      step: z.string(),
      state: z.string(),
      severity: z.string(),
      by: z.nullable(z.string()),
      device: z.nullable(z.string()),
    }),
  ),
  told: z.array(toldLine),
});
export type AlertStory = z.infer<typeof alertStory>;
