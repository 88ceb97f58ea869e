/**
 * The answer to a page's request from the build's own files, else from the network; null for what the worker keeps
 * out of: the API, other origins, anything that changes something. Every address of a page is the one shell.
 */
export function answerFromCache(
  request: Request,
  origin: string,
  caches: CacheStorage,
  cacheName: string,
): Promise<Response> | null {
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== origin || url.pathname.startsWith("/api/")) return null;
  const path = request.mode === "navigate" ? "/" : url.pathname;
  return caches
    .open(cacheName)
    .then((cache) => cache.match(path))
    .then((kept) => kept ?? fetch(request));
}
