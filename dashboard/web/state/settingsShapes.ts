import type { NoticeSettingsView } from "@boothward/shared-types/notices";
import { matter } from "@boothward/shared-types/words";
import * as z from "zod/mini";

/** What was chosen about notices, as the dashboard tells it; held to the shared type, which checks what is sent. */
export const noticeSettings: z.ZodMiniType<NoticeSettingsView> = z.object({
  escalateAfterMin: z.object({ actNow: z.number(), plan: z.number() }),
  repeatAfterMin: z.number(),
  units: z.enum(["metric", "us"]),
  rulesOff: z.array(matter),
  mail: z.nullable(
    z.object({
      host: z.string(),
      port: z.number(),
      security: z.enum(["tls", "startTls", "open"]),
      user: z.nullable(z.string()),
      from: z.string(),
    }),
  ),
  ping: z.nullable(z.object({ url: z.string(), everyMin: z.number() })),
  quietHours: z.nullable(z.object({ from: z.string(), to: z.string(), zone: z.string() })),
  hasMailPassword: z.boolean(),
});
