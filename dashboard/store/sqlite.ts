import { mkdirSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { SqliteDialect, type Dialect } from "kysely";

/**
 * The embedded engine: everything that only SQLite knows is in this file.
 *
 * `openSqlite` makes the folder, claims it for this process and opens the store's file in it. Throws
 * `FolderInUse` when another dashboard has the folder.
 */
export function openSqlite(dataDir: string): { dialect: Dialect; release(): void } {
  mkdirSync(dataDir, { recursive: true });
  const claim = claimFolder(dataDir);
  const database = new Database(join(dataDir, "boothward.db"));
  // Readers never wait for the writer, and a commit is on disk before it is acknowledged: only FULL syncs
  // the log at each commit.
  database.pragma("journal_mode = WAL");
  database.pragma("synchronous = FULL");
  database.pragma("foreign_keys = ON");
  return { dialect: new SqliteDialect({ database }), release: () => claim.close() };
}

/** Another dashboard runs on the same data folder. */
export class FolderInUse extends Error {
  constructor(dataDir: string) {
    super(
      `Another dashboard is running on the data folder ${dataDir}. Stop it first, or name another folder with --data.`,
    );
    this.name = "FolderInUse";
  }
}

/**
 * Holds the folder until closed, or until the process ends however it ends: the lock is the operating
 * system's, taken by an open exclusive transaction on a file of its own.
 */
function claimFolder(dataDir: string): { close(): void } {
  const claim = new Database(join(dataDir, "in-use.db"), { timeout: 0 });
  try {
    claim.exec("BEGIN EXCLUSIVE");
    return claim;
  } catch (error) {
    claim.close();
    if (error instanceof Database.SqliteError && error.code.startsWith("SQLITE_BUSY")) {
      throw new FolderInUse(dataDir);
    }
    throw error;
  }
}
