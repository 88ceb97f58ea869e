import { readdir, readFile } from "node:fs/promises";

/** The text of a small file of the kernel, without the line end; null if it is not there or cannot be read. */
export async function readText(path: string): Promise<string | null> {
  return await readFile(path, "utf8").then(
    (text) => text.trim(),
    () => null,
  );
}

/** The whole number in a small file of the kernel; null if there is none. */
export async function readInt(path: string): Promise<number | null> {
  const text = await readText(path);
  return text !== null && /^-?\d+$/.test(text) ? Number(text) : null;
}

/** Names in a folder in a natural order (hwmon2 before hwmon10); empty if it is not there. */
export async function listNames(path: string): Promise<readonly string[]> {
  const names = await readdir(path).catch(() => []);
  return names.toSorted((a, b) => a.localeCompare(b, "en", { numeric: true }));
}
