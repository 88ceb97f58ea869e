import { ownAddress } from "./ownAddress.ts";

/** Shows the page a notice is about: in a window that is open, else in a new one. Only our own addresses. */
export async function openPath(self: ServiceWorkerGlobalScope, data: unknown): Promise<void> {
  const address = ownAddress(data, self.location.origin);
  const [window] = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  if (window === undefined) return void (await self.clients.openWindow(address));
  await window.focus().catch(() => null);
  // A window that this worker is not in charge of cannot be sent elsewhere.
  await window.navigate(address).catch(() => self.clients.openWindow(address));
}
