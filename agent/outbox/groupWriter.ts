import type { AnyItem } from "@boothward/shared-types";
import type { Log } from "../log.ts";
import { type Segment, countIn, emptySegment } from "./segment.ts";
import { type OpenSegmentFile, type SegmentFile, syncFolder } from "./segmentFile.ts";

/** An item on its way to the disk. */
export type Entry = {
  readonly bootId: string;
  readonly item: AnyItem;
  readonly mark: string | null;
  readonly bytes: Buffer;
};
type Numbered = Entry & { readonly ordinal: number };

export type GroupWriterOptions = {
  readonly folder: string;
  readonly segmentBytes: number;
  /** While the disk takes nothing, at most this much waits in memory. */
  readonly waitingBytes: number;
  /** Highest number a segment file has so far. */
  readonly lastNumber: number;
  readonly openFile: OpenSegmentFile;
  readonly nowMs: () => number;
  readonly wait: (ms: number) => Promise<void>;
  readonly log: Log;
  /** A segment was begun; it goes on being counted up while it is written to. */
  readonly onBegun: (segment: Segment) => void;
  /** Called after each write, in turn with the writes: the moment to make room. */
  readonly tidy: () => Promise<void>;
  readonly onWritten: (entries: readonly Entry[]) => void;
  /** Readings that were let go of because the disk took nothing for too long. */
  readonly onThinned: (readings: number) => void;
};

/** A disk that is full is asked again after this long, doubling up to the last. */
const retryMs = { first: 1_000, last: 30_000 };

type Waiter = {
  readonly through: number;
  readonly resolve: () => void;
  readonly reject: (error: Error) => void;
};

/**
 * Writes entries to segment files in the order they were given, in groups: whatever came in while one
 * group was being synced is the next group, so that many small appends share one sync.
 *
 * An error of the disk is said once, and the same group is written to a new file later.
 */
export class GroupWriter {
  readonly #options: GroupWriterOptions;
  #entries: Numbered[] = [];
  #entriesBytes = 0;
  /** Ordinal of the last entry that came in, and of the last that was written. */
  #taken = 0;
  #settled = 0;
  #waiters: Waiter[] = [];
  #active: { segment: Segment; file: SegmentFile } | null = null;
  #lastNumber: number;
  #running: Promise<void> | null = null;
  #tries = 0;
  /** Something may have changed since the present turn looked. */
  #isPoked = false;
  #fault: string | null = null;
  #isClosing = false;
  #stopWaiting: () => void = () => undefined;
  readonly #closing: Promise<void>;

  constructor(options: GroupWriterOptions) {
    this.#options = options;
    this.#lastNumber = options.lastNumber;
    this.#closing = new Promise((resolve) => (this.#stopWaiting = resolve));
  }

  /** What the disk said when it last refused to write; null while all is well. */
  get fault(): string | null {
    return this.#fault;
  }

  /** Takes an entry in; it is written soon. */
  add(entry: Entry): void {
    this.#taken += 1;
    this.#entries.push({ ...entry, ordinal: this.#taken });
    this.#entriesBytes += entry.bytes.length;
    if (this.#entriesBytes > this.#options.waitingBytes) this.#thinWaiting();
    this.poke();
  }

  /** Resolves when all that was added before is on the disk; rejects if it is closed before that. */
  written(): Promise<void> {
    if (this.#settled >= this.#taken) return Promise.resolve();
    const through = this.#taken;
    return new Promise((resolve, reject) => this.#waiters.push({ through, resolve, reject }));
  }

  /** Starts a turn of writing and making room unless one is under way. */
  poke(): void {
    this.#isPoked = true;
    // The turn begins after the present call, so that all that is added in one go is one group.
    this.#running ??= Promise.resolve()
      .then(() => this.#run())
      .finally(() => {
        this.#running = null;
        if (this.#isPoked && !this.#isClosing) this.poke();
      });
  }

  /** Writes what waits, once more if need be, and closes the file. */
  async close(): Promise<void> {
    this.#isClosing = true;
    this.#stopWaiting();
    await this.#running;
    if (this.#entries.length > 0) await this.#run();
    for (const { reject } of this.#waiters.splice(0))
      reject(new Error(`not written before closing: ${this.#fault ?? "closed"}`));
    await this.#active?.file.close();
    if (this.#active) this.#active.segment.items = null;
    this.#active = null;
  }

  async #run(): Promise<void> {
    do {
      this.#isPoked = false;
      const group = this.#takeGroup();
      const isWritten = await this.#tryWrite(group);
      await this.#options.tidy();
      if (isWritten) continue;
      if (this.#isClosing) return;
      await Promise.race([this.#options.wait(this.#retryInMs()), this.#closing]);
    } while (this.#entries.length > 0 || this.#isPoked);
  }

  async #tryWrite(group: Numbered[]): Promise<boolean> {
    if (group.length === 0) return true;
    try {
      await this.#write(group);
    } catch (error) {
      this.#giveBack(group);
      await this.#abandonFile();
      this.#say(error);
      return false;
    }
    this.#recovered();
    this.#settle(group);
    return true;
  }

  /** The entries at the front that belong into one file. */
  #takeGroup(): Numbered[] {
    const bootId = this.#entries[0]?.bootId;
    let bytes = 0;
    const end = this.#entries.findIndex((entry) => {
      if (entry.bootId !== bootId || bytes >= this.#options.segmentBytes) return true;
      bytes += entry.bytes.length;
      return false;
    });
    const group = this.#entries.splice(0, end === -1 ? this.#entries.length : end);
    this.#entriesBytes -= sumBytes(group);
    return group;
  }

  #giveBack(group: Numbered[]): void {
    this.#entries.unshift(...group);
    this.#entriesBytes += sumBytes(group);
  }

  async #write(group: readonly Numbered[]): Promise<void> {
    const { segment, file } = await this.#fileFor(group[0]?.bootId ?? "");
    await file.append(Buffer.concat(group.map((entry) => entry.bytes)));
    await file.sync();
    for (const entry of group) countIn(segment, entry.item);
    segment.bytes += sumBytes(group);
  }

  async #fileFor(bootId: string): Promise<{ segment: Segment; file: SegmentFile }> {
    const active = this.#active;
    if (active?.segment.bootId === bootId && active.segment.bytes < this.#options.segmentBytes) return active;
    if (active) {
      this.#active = null;
      active.segment.items = null;
      await active.file.close();
    }
    const { folder, openFile, nowMs, onBegun } = this.#options;
    this.#lastNumber += 1;
    const segment = emptySegment(folder, this.#lastNumber, nowMs(), bootId);
    const file = await openFile(segment.path);
    this.#active = { segment, file };
    onBegun(segment);
    await syncFolder(folder);
    return this.#active;
  }

  #settle(group: readonly Numbered[]): void {
    this.#settled = group.at(-1)?.ordinal ?? this.#settled;
    this.#options.onWritten(group);
    while (this.#waiters[0] && this.#waiters[0].through <= this.#settled) this.#waiters.shift()?.resolve();
  }

  /** After a failed write or sync nobody knows what the file holds: it ends where it was last sure. */
  async #abandonFile(): Promise<void> {
    const active = this.#active;
    if (!active) return;
    this.#active = null;
    active.segment.items = null;
    await active.file.truncate(active.segment.bytes).catch(() => undefined);
    await active.file.close().catch(() => undefined);
  }

  #retryInMs(): number {
    return Math.min(retryMs.last, retryMs.first * 2 ** (this.#tries - 1));
  }

  #say(error: unknown): void {
    const words = error instanceof Error ? error.message : String(error);
    this.#tries += 1;
    const fields = { error: words, retryInMs: this.#retryInMs() };
    if (this.#fault !== words) this.#options.log.error(fields, "the outbox cannot write; trying again");
    this.#fault = words;
  }

  #recovered(): void {
    if (this.#fault !== null) this.#options.log.info({}, "the outbox writes to the disk again");
    this.#fault = null;
    this.#tries = 0;
  }

  /** Lets go of the oldest waiting readings until half of the room is free; the newest entry stays. */
  #thinWaiting(): void {
    const newest = this.#entries.at(-1);
    const before = this.#entries.length;
    this.#entries = this.#entries.filter((entry) => {
      const isOver = this.#entriesBytes > this.#options.waitingBytes / 2;
      const isKept = !isOver || entry.item.class === "fact" || entry === newest;
      if (!isKept) this.#entriesBytes -= entry.bytes.length;
      return isKept;
    });
    const thinned = before - this.#entries.length;
    if (thinned > 0) this.#options.onThinned(thinned);
  }
}

function sumBytes(entries: readonly Entry[]): number {
  return entries.reduce((sum, entry) => sum + entry.bytes.length, 0);
}
