import * as z from "zod";
import type { ANotifier } from "./aNotifier.ts";
import type { AReceiver } from "./aReceiver.ts";
import { sixAtMs } from "./aStoredItem.ts";

const hooked = z.object({ data: z.object({ noticeId: z.string(), text: z.string(), why: z.string() }) });

/** What a webhook was told, in order. */
export const heard = ({ calls }: AReceiver) =>
  calls.map(({ body }) => hooked.parse(JSON.parse(body.toString())).data);
export const texts = (receiver: AReceiver) => heard(receiver).map(({ text }) => text);

/** Keeps a stopped printer of Juniper with what was said to it. */
export async function keepAlert(
  with_: ANotifier,
  alertId: string,
  over: Record<string, unknown> = {},
  clearedAtMs: number | null = null,
) {
  const row = {
    ...{ alertId, boothId: "juniper", matter: "printerStopped", sinceAtMs: sixAtMs, raisedAtMs: sixAtMs },
    ...{ clearedAtMs, closedAtMs: null, body: JSON.stringify({ taken: null, doneAtMs: null, ...over }) },
  };
  await with_.store.alerts.save({ save: [row], remove: [], steps: [], notices: [] });
}

/** How a notice ended; null while it has not. */
export const ended = async ({ store }: ANotifier, noticeId: string) =>
  (await store.notices.byId(noticeId))?.ended;
