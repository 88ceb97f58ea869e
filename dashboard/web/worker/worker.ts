import { answerFromCache } from "./answerFromCache.ts";
import { keepBuild, letOldGo } from "./keptBuild.ts";
import { openPath } from "./openPath.ts";
import { showPush } from "./showPush.ts";

declare const self: ServiceWorkerGlobalScope;
/** Filled in by the build. */
declare const builtFiles: readonly string[];
declare const builtVersion: string;

/**
 * The pages' service worker. Each build has its own, with its own copy of its own files: a new one waits until the
 * last page of the old one is closed, so that no open page loses the files it still needs.
 */
const cacheName = `pages-${builtVersion}`;

self.addEventListener("install", (event) => event.waitUntil(keepBuild(caches, cacheName, builtFiles)));
self.addEventListener("activate", (event) =>
  event.waitUntil(letOldGo(caches, cacheName).then(() => self.clients.claim())),
);
self.addEventListener("fetch", (event) => {
  const answer = answerFromCache(event.request, self.location.origin, caches, cacheName);
  if (answer !== null) event.respondWith(answer);
});
self.addEventListener("push", (event) => event.waitUntil(showPush(self, event.data)));
self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  event.waitUntil(openPath(self, event.notification.data));
});
