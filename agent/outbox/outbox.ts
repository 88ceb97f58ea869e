import type { AnyItem, Clock, NewItem } from "@boothward/shared-types";
import { mkdir } from "node:fs/promises";
import type { Log } from "../log.ts";
import { type Entry, GroupWriter } from "./groupWriter.ts";
import { type OutboxLimits, defaultOutboxLimits } from "./limits.ts";
import { makeRoom } from "./makeRoom.ts";
import { Positions } from "./positions.ts";
import { encodeRecord, maxRecordBytes } from "./record.ts";
import { loadFolder } from "./segment.ts";
import { type OpenSegmentFile, openSegmentFile, syncFile, syncFolder } from "./segmentFile.ts";
import { Shelf } from "./shelf.ts";

/** An item with its moment and source, before the outbox numbers it. */
export type StampedItem = NewItem & {
  readonly source: string;
  readonly atMs: number;
  readonly monoMs: number;
};

/** A stamped item; `mark` says how far its source has come with it, and is as durable as the item. */
export type AppendItem = StampedItem & { readonly mark?: string };

export type Peeked = { readonly bootId: string; readonly afterSeq: number; readonly items: AnyItem[] };
export type Position = { readonly bootId: string; readonly seq: number };

export type OutboxStats = {
  readonly bytes: number;
  readonly segments: number;
  readonly bootId: string | null;
  readonly lastSeq: number;
  /** Since this outbox was opened. */
  readonly thinnedReadings: number;
  /** Found damaged when it was opened. */
  readonly damagedBytes: number;
  /** What the disk says while it takes nothing; null: all well. */
  readonly fault: string | null;
};

export type OutboxOptions = {
  readonly folder: string;
  readonly limits?: Partial<OutboxLimits>;
  readonly clock: Clock;
  readonly wait: (ms: number) => Promise<void>;
  readonly log: Log;
  readonly openFile?: OpenSegmentFile;
};

/**
 * Opens the outbox in a folder: what the agent saw, durable on disk until the dashboard has it and a while
 * longer. Nothing but this process may use the folder.
 *
 * Recovers what an earlier run left (torn tails are cut) and puts it on the disk itself before it may be
 * sent. Throws when the folder cannot be made or read.
 */
export async function openOutbox(options: OutboxOptions): Promise<Outbox> {
  const { folder, log } = options;
  await mkdir(folder, { recursive: true });
  const loaded = await loadFolder(folder);
  const newest = loaded.segments.at(-1);
  if (newest) await syncFile(newest.path);
  await syncFolder(folder);
  const { damagedBytes, tornBytes } = loaded;
  if (tornBytes > 0) log.info({ tornBytes }, "the outbox was cut after its last whole record");
  if (damagedBytes > 0) log.error({ damagedBytes }, "parts of the outbox are damaged and were passed over");
  const positions = await Positions.open(folder, log);
  if (loaded.mark !== null) positions.setMark(loaded.mark);
  return new Outbox(options, new Shelf(loaded.segments, log), positions, damagedBytes);
}

export class Outbox {
  readonly #clock: Clock;
  readonly #log: Log;
  readonly #limits: OutboxLimits;
  readonly #shelf: Shelf;
  readonly #positions: Positions;
  readonly #writer: GroupWriter;
  readonly #damagedBytes: number;
  readonly #listeners: (() => void)[] = [];
  #boot: { id: string; lastSeq: number } | null = null;
  /** Readings let go of that no `thinned` fact has told yet. */
  #untold = 0;
  #thinnedReadings = 0;
  /** Even without readings it is too large: new readings are not taken. */
  #isFull = false;
  #isClosed = false;

  constructor(options: OutboxOptions, shelf: Shelf, positions: Positions, damagedBytes: number) {
    this.#clock = options.clock;
    this.#log = options.log;
    this.#limits = { ...defaultOutboxLimits, ...options.limits };
    this.#shelf = shelf;
    this.#positions = positions;
    this.#damagedBytes = damagedBytes;
    this.#writer = new GroupWriter({
      folder: options.folder,
      segmentBytes: this.#limits.segmentBytes,
      waitingBytes: this.#limits.waitingBytes,
      lastNumber: shelf.segments.at(-1)?.number ?? 0,
      openFile: options.openFile ?? openSegmentFile,
      nowMs: () => options.clock().wallMs,
      wait: options.wait,
      log: options.log,
      onBegun: (segment) => shelf.segments.push(segment),
      tidy: () => this.#tidy(),
      onWritten: (entries) => this.#onWritten(entries),
      onThinned: (readings) => this.#countThinned(readings),
    });
  }

  /** Items appended from now on belong to this boot and are numbered from 1. */
  startBoot(bootId: string): void {
    if (!/^[A-Za-z0-9-]{1,80}$/.test(bootId)) throw new Error(`bootId must be a UUID, got "${bootId}"`);
    this.#boot = { id: bootId, lastSeq: 0 };
  }

  /** Numbers items and writes them; resolves when they are durable, rejects if it is closed before that. */
  async append(items: readonly AppendItem[]): Promise<void> {
    if (this.#isClosed) throw new Error("the outbox is closed");
    if (this.#untold > 0 && items.some((item) => item.class === "fact")) this.#tellThinned();
    for (const item of items) {
      if (this.#isFull && item.class === "reading") this.#countThinned(1);
      else this.#add(item);
    }
    await this.#writer.written();
  }

  #onWritten(entries: readonly Entry[]): void {
    const mark = entries.findLast((entry) => entry.mark !== null)?.mark;
    if (typeof mark === "string") this.#positions.setMark(mark);
    for (const listener of this.#listeners) listener();
  }

  #add({ mark, ...item }: AppendItem): void {
    if (!this.#boot) throw new Error("append before startBoot");
    const seq = this.#boot.lastSeq + 1;
    const numbered: AnyItem = { ...item, seq };
    const bytes = encodeRecord(mark === undefined ? { item: numbered } : { item: numbered, mark });
    if (bytes.length > maxRecordBytes) {
      this.#log.error({ kind: item.kind, bytes: bytes.length }, "an item is too large and is left out");
      return;
    }
    this.#boot.lastSeq = seq;
    this.#writer.add({ bootId: this.#boot.id, item: numbered, mark: mark ?? null, bytes });
  }

  /**
   * The next durable items that are not acknowledged, of one boot, oldest boot first; null when there are
   * none. With `sent` it goes on after what was sent already.
   */
  peek(limit: number, sent: Position | null = null): Peeked | null {
    const boots = this.#shelf.boots();
    const from = sent ? boots.indexOf(sent.bootId) : -1;
    for (const bootId of boots.slice(Math.max(0, from))) {
      const sentSeq = sent?.bootId === bootId ? sent.seq : 0;
      const afterSeq = Math.max(this.#positions.ackedOf(bootId), sentSeq);
      const items = this.#shelf.itemsAfter(bootId, afterSeq, limit, this.#limits.peekBytes);
      if (items.length > 0) return { bootId, afterSeq, items };
    }
    return null;
  }

  /** The dashboard has everything of this boot through this number. */
  dropThrough(bootId: string, seq: number): void {
    if (!this.boots().includes(bootId) || seq <= this.#positions.ackedOf(bootId)) return;
    this.#positions.setAcked(bootId, seq);
    if (this.#isFull) this.#writer.poke();
  }

  /** The dashboard has of this boot only what is at or below this number: the rest is sent again. */
  rewindTo(bootId: string, afterSeq: number): void {
    if (!this.boots().includes(bootId) || afterSeq >= this.#positions.ackedOf(bootId)) return;
    const first = this.#shelf.segments.find((segment) => segment.bootId === bootId)?.firstSeq ?? 0;
    const fields = { bootId, afterSeq, firstKeptSeq: first };
    this.#log.info(fields, "the dashboard asks for items again");
    this.#positions.setAcked(bootId, afterSeq);
  }

  /** Boots that something is kept of, oldest first. */
  boots(): string[] {
    return this.#shelf.boots();
  }

  /** How far the source that leaves marks has come; null: no mark was ever left here. */
  get mark(): string | null {
    return this.#positions.mark;
  }

  /** Calls back whenever more items have become durable. */
  whenDurable(listener: () => void): void {
    this.#listeners.push(listener);
  }

  stats(): OutboxStats {
    return {
      bytes: this.#shelf.bytes,
      segments: this.#shelf.segments.length,
      bootId: this.#boot?.id ?? null,
      lastSeq: this.#boot?.lastSeq ?? 0,
      thinnedReadings: this.#thinnedReadings,
      damagedBytes: this.#damagedBytes,
      fault: this.#writer.fault,
    };
  }

  /** Writes what waits and closes the files. */
  async close(): Promise<void> {
    if (this.#isClosed) return;
    if (this.#untold > 0 && this.#boot) this.#tellThinned();
    this.#isClosed = true;
    await this.#writer.close();
    await this.#positions.save(false);
  }

  #countThinned(readings: number): void {
    this.#untold += readings;
    this.#thinnedReadings += readings;
  }

  #tellThinned(): void {
    const { wallMs, monoMs } = this.#clock();
    const readings = this.#untold;
    this.#untold = 0;
    this.#add({ class: "fact", kind: "thinned", readings, source: "outbox", atMs: wallMs, monoMs });
  }

  async #tidy(): Promise<void> {
    try {
      const { thinned, isFull } = await makeRoom({
        shelf: this.#shelf,
        positions: this.#positions,
        limits: this.#limits,
        nowMs: this.#clock().wallMs,
        isDiskFull: /ENOSPC|EDQUOT/.test(this.#writer.fault ?? ""),
      });
      if (isFull && !this.#isFull) this.#log.error({}, "the outbox is full of facts: no readings are kept");
      this.#isFull = isFull;
      if (thinned > 0) {
        this.#log.warn({ readings: thinned }, "the outbox is full: the oldest readings were let go of");
        this.#countThinned(thinned);
        if (!this.#isClosed) this.#tellThinned();
      }
    } catch (error) {
      this.#log.error({ error: String(error) }, "the outbox cannot make room");
    }
  }
}
