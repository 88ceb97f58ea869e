import type { AnyItem } from "@boothward/shared-types";
import { readFileSync } from "node:fs";
import { open, rename, unlink } from "node:fs/promises";
import { dirname } from "node:path";
import type { Log } from "../log.ts";
import type { Positions } from "./positions.ts";
import { type OutboxRecord, decodeRecords, encodeRecord } from "./record.ts";
import type { Segment } from "./segment.ts";
import { syncFolder } from "./segmentFile.ts";

/**
 * The segments of the outbox in the order of writing, the one being written to last, with what is read
 * from them and what is taken away from them.
 */
export class Shelf {
  readonly segments: Segment[];
  readonly #log: Log;
  /** The items of the segment that was read last: a backlog is sent from one segment many times over. */
  #readLast: { segment: Segment; items: AnyItem[] } | null = null;

  constructor(segments: Segment[], log: Log) {
    this.segments = segments;
    this.#log = log;
  }

  get bytes(): number {
    return this.segments.reduce((sum, segment) => sum + segment.bytes, 0);
  }

  /** Boots that something is kept of, in the order they were. */
  boots(): string[] {
    return [...new Set(this.segments.map((segment) => segment.bootId))];
  }

  /** Items of a boot above a number, oldest first, up to both limits. */
  itemsAfter(bootId: string, seq: number, limit: number, limitBytes: number): AnyItem[] {
    const found: AnyItem[] = [];
    let roomBytes = limitBytes;
    for (const segment of this.segments) {
      if (segment.bootId !== bootId || segment.lastSeq <= seq) continue;
      for (const item of this.#itemsOf(segment)) {
        if (item.seq <= seq) continue;
        roomBytes -= JSON.stringify(item).length;
        if (found.length >= limit || (roomBytes < 0 && found.length > 0)) return found;
        found.push(item);
      }
    }
    return found;
  }

  #itemsOf(segment: Segment): readonly AnyItem[] {
    if (segment.items) return segment.items;
    if (this.#readLast?.segment === segment) return this.#readLast.items;
    const items = this.#readRecords(segment).map((record) => record.item);
    this.#readLast = { segment, items };
    return items;
  }

  #readRecords(segment: Segment): OutboxRecord[] {
    try {
      const { records } = decodeRecords(readFileSync(segment.path));
      return records.filter(({ item }) => item.seq >= segment.firstSeq && item.seq <= segment.lastSeq);
    } catch (error) {
      this.#log.error({ path: segment.path, error: String(error) }, "a part of the outbox cannot be read");
      return [];
    }
  }

  /** Segments that are no longer written to and wholly acknowledged, oldest first. */
  doneWith(positions: Positions): Segment[] {
    return this.segments.filter(
      (segment) => segment.items === null && segment.lastSeq <= positions.ackedOf(segment.bootId),
    );
  }

  async remove(segment: Segment): Promise<void> {
    await unlink(segment.path);
    this.segments.splice(this.segments.indexOf(segment), 1);
    if (this.#readLast?.segment === segment) this.#readLast = null;
  }

  /** Lets go of the readings of one segment that are not acknowledged, and says how many those were. */
  async thin(segment: Segment, ackedSeq: number): Promise<number> {
    const records = this.#readRecords(segment);
    const facts = records.filter(({ item }) => item.class === "fact");
    const lost = records.filter(({ item }) => item.class === "reading" && item.seq > ackedSeq).length;
    if (facts.length === 0) {
      await this.remove(segment);
      return lost;
    }
    const bytes = Buffer.concat(facts.map(encodeRecord));
    await writeOver(segment.path, bytes);
    segment.bytes = bytes.length;
    segment.readings = 0;
    if (this.#readLast?.segment === segment) this.#readLast = null;
    return lost;
  }
}

async function writeOver(path: string, bytes: Buffer): Promise<void> {
  const file = await open(`${path}.tmp`, "w");
  try {
    await file.writeFile(bytes);
    await file.datasync();
  } finally {
    await file.close();
  }
  await rename(`${path}.tmp`, path);
  await syncFolder(dirname(path));
}
