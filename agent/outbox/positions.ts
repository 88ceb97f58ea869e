import { open, readFile, rename } from "node:fs/promises";
import { join } from "node:path";
import * as z from "zod";
import type { Log } from "../log.ts";

const positionsFile = z.object({
  /** Highest acknowledged sequence number of each boot that is still kept. */
  acked: z.record(z.string(), z.int().min(0)),
  /** How far the source that leaves marks had come. */
  mark: z.string().nullable(),
});

/**
 * What the outbox remembers beside the items: how far each boot is acknowledged, and the last mark.
 *
 * Losing the acknowledgements is harmless, items are then sent again and passed over; so they are saved
 * in the background and not synced. A mark must be safe before the item that carries it is removed.
 */
export class Positions {
  readonly acked: Map<string, number>;
  #mark: string | null;
  readonly #path: string;
  readonly #log: Log;
  #isChanged = false;
  #saving: Promise<void> | null = null;

  private constructor(path: string, log: Log, acked: Map<string, number>, mark: string | null) {
    this.#path = path;
    this.#log = log;
    this.acked = acked;
    this.#mark = mark;
  }

  /** Reads the file; one that is missing or damaged counts as empty. */
  static async open(folder: string, log: Log): Promise<Positions> {
    const path = join(folder, "positions.json");
    try {
      const { acked, mark } = positionsFile.parse(JSON.parse(await readFile(path, "utf8")));
      return new Positions(path, log, new Map(Object.entries(acked)), mark);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "ENOENT")
        log.warn({ path, error: String(error) }, "the outbox's positions cannot be read; all is sent again");
      return new Positions(path, log, new Map(), null);
    }
  }

  get mark(): string | null {
    return this.#mark;
  }

  setMark(mark: string): void {
    this.#mark = mark;
    this.#isChanged = true;
  }

  ackedOf(bootId: string): number {
    return this.acked.get(bootId) ?? 0;
  }

  setAcked(bootId: string, seq: number): void {
    this.acked.set(bootId, seq);
    this.#isChanged = true;
    void this.save(false);
  }

  /** Forgets boots of which nothing is kept. */
  keepOnly(bootIds: ReadonlySet<string>): void {
    for (const bootId of this.acked.keys()) if (!bootIds.has(bootId)) this.acked.delete(bootId);
  }

  /** Saves what changed; changes during a save are saved by one more. Says an error in the log, never throws. */
  async save(isSynced: boolean): Promise<boolean> {
    if (isSynced) await this.#saving;
    this.#saving ??= this.#saveAll(isSynced).finally(() => (this.#saving = null));
    await this.#saving;
    return !this.#isChanged;
  }

  async #saveAll(isSynced: boolean): Promise<void> {
    try {
      while (this.#isChanged) {
        this.#isChanged = false;
        await this.#write(isSynced);
      }
    } catch (error) {
      this.#isChanged = true;
      this.#log.warn({ path: this.#path, error: String(error) }, "the outbox's positions cannot be saved");
    }
  }

  async #write(isSynced: boolean): Promise<void> {
    const text = JSON.stringify({ acked: Object.fromEntries(this.acked), mark: this.#mark });
    const file = await open(`${this.#path}.tmp`, "w");
    try {
      await file.writeFile(text);
      if (isSynced) await file.datasync();
    } finally {
      await file.close();
    }
    await rename(`${this.#path}.tmp`, this.#path);
  }
}
