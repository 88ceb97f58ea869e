import { open } from "node:fs/promises";

/** The few things the outbox does to the file it is writing; passed in, so that a test can fill the disk. */
export type SegmentFile = {
  append(bytes: Uint8Array): Promise<void>;
  /** Resolves when everything appended is on the disk itself. */
  sync(): Promise<void>;
  truncate(lengthBytes: number): Promise<void>;
  close(): Promise<void>;
};
export type OpenSegmentFile = (path: string) => Promise<SegmentFile>;

/** Makes a new file that must not be there yet. */
export const openSegmentFile: OpenSegmentFile = async (path) => {
  const file = await open(path, "ax");
  return {
    append: async (bytes) => {
      await file.appendFile(bytes);
    },
    sync: () => file.datasync(),
    truncate: (lengthBytes) => file.truncate(lengthBytes),
    close: () => file.close(),
  };
};

/** Puts a file's present content on the disk itself; an earlier run may have been killed before it did. */
export async function syncFile(path: string): Promise<void> {
  const file = await open(path, "r+");
  try {
    await file.datasync();
  } finally {
    await file.close();
  }
}

/** Makes new, renamed and removed names in a folder durable; Windows cannot and need not. */
export async function syncFolder(path: string): Promise<void> {
  if (process.platform === "win32") return;
  const folder = await open(path, "r");
  try {
    await folder.sync();
  } finally {
    await folder.close();
  }
}
