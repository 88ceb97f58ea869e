import * as z from "zod/mini";

const opened = z.object({ path: z.string() });

/** Shows the page a notice is about: in a window that is open, else in a new one. Only our own addresses. */
export async function openPath(self: ServiceWorkerGlobalScope, data: unknown): Promise<void> {
  const address = ownAddress(data, self.location.origin);
  const [window] = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  if (window === undefined) return void (await self.clients.openWindow(address));
  await window.focus().catch(() => null);
  // A window that this worker is not in charge of cannot be sent elsewhere.
  await window.navigate(address).catch(() => self.clients.openWindow(address));
}

/** The address within our own origin; what leads elsewhere leads to the first page. */
export function ownAddress(data: unknown, origin: string): string {
  const read = opened.safeParse(data);
  if (!read.success) return `${origin}/`;
  const url = new URL(read.data.path, origin);
  return url.origin === origin ? url.href : `${origin}/`;
}
