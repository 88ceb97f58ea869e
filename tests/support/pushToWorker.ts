import type { BrowserContext } from "playwright-core";

/**
 * Hands the worker of an origin a push, as the browser's own push service would, from a page that is not of it.
 * Source: Chrome DevTools Protocol, ServiceWorker.deliverPushMessage.
 */
export async function pushToWorker(context: BrowserContext, origin: string, data: string): Promise<void> {
  const bench = await context.newPage();
  const debug = await context.newCDPSession(bench);
  const registered = new Promise<string>((resolve) => {
    debug.on("ServiceWorker.workerRegistrationUpdated", ({ registrations }) => {
      const own = registrations.find(({ scopeURL, isDeleted }) => scopeURL === `${origin}/` && !isDeleted);
      if (own !== undefined) resolve(own.registrationId);
    });
  });
  await debug.send("ServiceWorker.enable");
  const registrationId = await registered;
  await debug.send("ServiceWorker.deliverPushMessage", { origin, registrationId, data });
  await bench.close();
}
