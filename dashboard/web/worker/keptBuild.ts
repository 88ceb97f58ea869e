/** Fetches all files of a build into its cache, past the browser's own; fails whole if one is missing. */
export async function keepBuild(
  caches: CacheStorage,
  cacheName: string,
  files: readonly string[],
): Promise<void> {
  const cache = await caches.open(cacheName);
  await cache.addAll(files.map((file) => new Request(file, { cache: "reload" })));
}

/** Deletes the caches of other builds. */
export async function letOldGo(caches: CacheStorage, cacheName: string): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== cacheName).map((name) => caches.delete(name)));
}
