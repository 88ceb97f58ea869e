import type { Dirent } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { whyNot } from "./folderFiles.ts";
import { folderSourceConfig } from "./folderSourceConfig.ts";

/** A folder that holds pictures. */
export type PictureFolder = {
  readonly path: string;
  readonly pictures: number;
  readonly newestAtMs: number;
};

/** A look round must be quick on a full disk too. */
const mostFolders = 500;
const deepest = 3;
/** Stands for the settings' defaults: what would be counted is what is looked for. */
const allowed = folderSourceConfig.parse({ kind: "folder", path: "." });

/** Folders with pictures under these, the one with the newest picture first. Reads names and times only. */
export async function findPictureFolders(roots: readonly string[]): Promise<readonly PictureFolder[]> {
  const waiting = roots.map((path) => ({ path, depth: 0 }));
  const found: PictureFolder[] = [];
  for (let looked = 0; looked < mostFolders; looked += 1) {
    const next = waiting.shift();
    if (!next) break;
    const entries = await readdir(next.path, { withFileTypes: true }).catch((): Dirent[] => []);
    const pictures = entries.filter((each) => each.isFile() && whyNot(each.name, allowed) === null);
    if (pictures.length > 0) found.push(await describeFolder(next.path, pictures));
    if (next.depth < deepest) {
      const inner = entries.filter((each) => each.isDirectory() && !each.name.startsWith("."));
      waiting.push(...inner.map((each) => ({ path: join(next.path, each.name), depth: next.depth + 1 })));
    }
  }
  return found.toSorted((a, b) => b.newestAtMs - a.newestAtMs);
}

async function describeFolder(path: string, pictures: readonly Dirent[]): Promise<PictureFolder> {
  const times = pictures.map((each) =>
    stat(join(path, each.name))
      .then((found) => found.mtimeMs)
      .catch(() => 0),
  );
  return { path, pictures: pictures.length, newestAtMs: Math.max(...(await Promise.all(times))) };
}
