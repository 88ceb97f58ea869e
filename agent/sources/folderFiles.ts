import * as z from "zod";

/** A file as it stands in the folder at one look. */
export type FileSeen = {
  readonly name: string;
  readonly bytes: number;
  readonly modifiedAtMs: number;
  /** Stays the same when the file is renamed. */
  readonly fileId: string;
};

/** What must be known of a folder after a restart. */
export const folderMemory = z.object({
  /** Wall clock at the agent's first start ever. */
  firstStartAtMs: z.number(),
  /** The folder itself; another one under the same path begins with other files. */
  folderId: z.string().nullable(),
  /** Files dealt with, by name. */
  known: z.record(
    z.string(),
    z.object({ fileId: z.string(), modifiedAtMs: z.number(), isGone: z.boolean() }),
  ),
});
export type FolderMemory = z.infer<typeof folderMemory>;

/** Names of deleted files are kept up to this many, oldest first to go: one may be moved out and back in. */
const mostGone = 2_000;

/**
 * Why a name is not that of a finished picture, or null if it may be one.
 *
 * By-products are told by a whole word in the name ("IMG_7_thumb"), so that "party" is not taken for "part".
 */
export function whyNot(
  name: string,
  allowed: { readonly extensions: readonly string[]; readonly ignore: readonly string[] },
): "hidden" | "extension" | "byProduct" | null {
  if (name.startsWith(".") || name.startsWith("~")) return "hidden";
  const lower = name.toLowerCase();
  const dot = lower.lastIndexOf(".");
  const extension = lower.slice(dot + 1);
  if (dot <= 0 || !allowed.extensions.some((each) => each.toLowerCase().replace(/^\./, "") === extension)) {
    return "extension";
  }
  const words = lower.slice(0, dot).split(/[^\p{L}]+/u);
  return allowed.ignore.some((word) => words.includes(word.toLowerCase())) ? "byProduct" : null;
}

/** Marks what has gone from the folder and what has come back unchanged; the memory is changed in place. */
export function noteGone(memory: FolderMemory, folderId: string | null, names: ReadonlySet<string>): void {
  const isOther = memory.folderId !== null && memory.folderId !== folderId;
  memory.folderId = folderId;
  for (const [name, file] of Object.entries(memory.known)) {
    if (isOther || !names.has(name)) file.isGone = true;
  }
  const gone = Object.keys(memory.known).filter((name) => memory.known[name]?.isGone);
  for (const name of gone.slice(0, Math.max(0, gone.length - mostGone))) delete memory.known[name];
}

/** True if the name needs no second look: it was dealt with and has been there ever since. */
export function isSettledName(memory: FolderMemory, name: string): boolean {
  return Object.hasOwn(memory.known, name) && memory.known[name]?.isGone === false;
}

/**
 * True if this file was dealt with under this name or, before it was renamed, under another. A file of a
 * known name that is newer than the one that went is a new one.
 */
export function isKnownFile(memory: FolderMemory, file: FileSeen): boolean {
  const sameName = Object.hasOwn(memory.known, file.name) ? memory.known[file.name] : undefined;
  if (sameName && (!sameName.isGone || file.modifiedAtMs <= sameName.modifiedAtMs)) return true;
  return Object.values(memory.known).some((known) => known.isGone && known.fileId === file.fileId);
}

export function remember(memory: FolderMemory, { name, fileId, modifiedAtMs }: FileSeen): void {
  // Deleted first, so that it becomes the newest of the record.
  delete memory.known[name];
  memory.known[name] = { fileId, modifiedAtMs, isGone: false };
}
