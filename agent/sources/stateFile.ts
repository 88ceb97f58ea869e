import { createHash } from "node:crypto";
import { mkdir, open, readFile, rename } from "node:fs/promises";
import { dirname, join } from "node:path";
import type * as z from "zod";

/** What a source must know after a restart, as one small JSON file that is replaced whole. */
export type StateFile<State> = {
  /** What was saved last; null if there is nothing, or nothing that can be read. */
  load(): Promise<State | null>;
  /** Resolves when it is on disk. Rejects with the error of the file system. */
  save(state: State): Promise<void>;
};

/** A file in `folder` whose name is made of `kind` and of what is watched, so that no two watch into one. */
export function stateFile<Schema extends z.ZodType>(
  folder: string,
  kind: string,
  watched: string,
  schema: Schema,
): StateFile<z.infer<Schema>> {
  const path = join(folder, `${kind}-${shortHash(watched)}.json`);
  return {
    async load() {
      const text = await readFile(path, "utf8").catch(() => null);
      return text === null ? null : parse(schema, text);
    },
    async save(state) {
      await mkdir(dirname(path), { recursive: true });
      const file = await open(`${path}.new`, "w", 0o600);
      try {
        await file.writeFile(JSON.stringify(state));
        await file.sync();
      } finally {
        await file.close();
      }
      await rename(`${path}.new`, path);
    },
  };
}

/** 16 hexadecimal digits that stand for a text. */
export function shortHash(text: string): string {
  return createHash("sha256").update(text).digest("hex").slice(0, 16);
}

function parse<Schema extends z.ZodType>(schema: Schema, text: string): z.infer<Schema> | null {
  try {
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
