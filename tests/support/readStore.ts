import { join } from "node:path";
import Database from "better-sqlite3";
import * as z from "zod";

/** Rows of a dashboard's file, read past its own store. `sql` is a whole select. */
export function readStore<T>(dataDir: string, sql: string, row: z.ZodType<T>): T[] {
  const database = new Database(join(dataDir, "boothward.db"), { readonly: true });
  try {
    return z.array(row).parse(database.prepare(sql).all());
  } finally {
    database.close();
  }
}

const itemRow = z.object({ bootId: z.string(), seq: z.number(), atMs: z.number(), kind: z.string() });

/** Every fact and reading in it, by boot and number. */
export function storedItems(dataDir: string): z.infer<typeof itemRow>[] {
  const columns = `"bootId", "seq", "atMs", "kind"`;
  return readStore(
    dataDir,
    `select ${columns} from fact union all select ${columns} from reading order by "bootId", "seq"`,
    itemRow,
  );
}

/** Changes a dashboard's file behind its back. */
export function changeStore(dataDir: string, sql: string): void {
  const database = new Database(join(dataDir, "boothward.db"));
  database.exec(sql);
  database.close();
}
