import { severity } from "@boothward/shared-types/words";
import * as z from "zod/mini";

z.config({ jitless: true });

/** What a notice brings, as far as the worker needs it. */
const message = z.object({
  noticeId: z.string(),
  deliveryId: z.string(),
  secret: z.string(),
  alertId: z.nullable(z.string()),
  severity,
  title: z.string(),
  body: z.string(),
  path: z.string(),
});

/** The words for a notice that cannot be read: a browser wants something to be shown for each. */
const unread = { title: "Boothward", body: "Something has changed. Open the page to see it." };

/**
 * Shows a notice, one for each alert: a later one takes the place of the earlier. "Now" stays until somebody
 * touches it. The dashboard is told that it came; that this fails takes nothing from the notice.
 */
export async function showPush(self: ServiceWorkerGlobalScope, data: PushMessageData | null): Promise<void> {
  const read = readMessage(data);
  if (read === null)
    return self.registration.showNotification(unread.title, { body: unread.body, icon: "/icon-192.png" });
  const { title, body, path, alertId, noticeId, severity, deliveryId, secret } = read;
  const options: NotificationOptions & { renotify: boolean } = {
    body,
    tag: alertId ?? noticeId,
    renotify: true,
    requireInteraction: severity === "actNow",
    icon: "/icon-192.png",
    badge: "/icon-192.png",
    data: { path },
  };
  await Promise.all([
    self.registration.showNotification(title, options),
    fetch("/api/arrivals", {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ deliveryId, secret }),
      keepalive: true,
    }).catch(() => null),
  ]);
}

function readMessage(data: PushMessageData | null): z.infer<typeof message> | null {
  try {
    const read = message.safeParse(data?.json());
    return read.success ? read.data : null;
  } catch {
    return null;
  }
}
