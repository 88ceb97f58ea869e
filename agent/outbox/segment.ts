import type { AnyItem } from "@boothward/shared-types";
import { readFile, readdir, truncate, unlink } from "node:fs/promises";
import { join } from "node:path";
import { type OutboxRecord, decodeRecords } from "./record.ts";

/**
 * One file of the outbox: items of one boot, in rising order. Its name carries what belongs to all of
 * them, so that no damage inside the file can lose it.
 */
export type Segment = {
  readonly path: string;
  readonly number: number;
  readonly bootId: string;
  /** Wall clock when it was begun, Unix ms. */
  readonly openedAtMs: number;
  bytes: number;
  /** Items below this were written again in an earlier segment and do not count. */
  firstSeq: number;
  lastSeq: number;
  /** Readings among its items: what thinning can let go of. */
  readings: number;
  /** The items themselves while it is being written to; null once it is only on disk. */
  items: AnyItem[] | null;
};

const namePattern = /^(\d{10})_(\d+)_([A-Za-z0-9-]{1,80})\.seg$/;

/** File name of a segment; numbers rise in the order of writing. */
export function segmentName(number: number, openedAtMs: number, bootId: string): string {
  return `${String(number).padStart(10, "0")}_${Math.max(0, Math.round(openedAtMs))}_${bootId}.seg`;
}

export function emptySegment(folder: string, number: number, openedAtMs: number, bootId: string): Segment {
  const path = join(folder, segmentName(number, openedAtMs, bootId));
  return { path, number, bootId, openedAtMs, bytes: 0, firstSeq: 0, lastSeq: 0, readings: 0, items: [] };
}

/** Counts an item into its segment. */
export function countIn(segment: Segment, item: AnyItem): void {
  if (segment.lastSeq === 0) segment.firstSeq = item.seq;
  segment.lastSeq = item.seq;
  if (item.class === "reading") segment.readings += 1;
  segment.items?.push(item);
}

export type LoadedFolder = {
  readonly segments: Segment[];
  readonly damagedBytes: number;
  readonly tornBytes: number;
  /** The furthest mark that was found, in the order of writing. */
  readonly mark: string | null;
};

/**
 * Reads what an earlier run left: cuts torn tails, removes empty and half-made files, and passes over
 * items that stand in two files because a write was repeated after an error.
 */
export async function loadFolder(folder: string): Promise<LoadedFolder> {
  const names = (await readdir(folder)).sort();
  const segments: Segment[] = [];
  let damagedBytes = 0;
  let tornBytes = 0;
  let mark: string | null = null;
  for (const name of names) {
    const path = join(folder, name);
    if (name.endsWith(".tmp")) await unlink(path);
    const match = namePattern.exec(name);
    if (!match) continue;
    const [, number = "", openedAtMs = "", bootId = ""] = match;
    const bytes = await readFile(path);
    const { records, goodBytes, damagedBytes: damaged } = decodeRecords(bytes);
    damagedBytes += damaged;
    tornBytes += bytes.length - goodBytes;
    const before = segments.findLast((segment) => segment.bootId === bootId)?.lastSeq ?? 0;
    const segment: Segment = {
      ...emptySegment(folder, Number(number), Number(openedAtMs), bootId),
      path,
      bytes: goodBytes,
      items: null,
    };
    for (const record of records) if (record.item.seq > before) countIn(segment, record.item);
    mark = lastMark(records) ?? mark;
    if (segment.lastSeq === 0) await unlink(path);
    else segments.push(segment);
    if (segment.lastSeq > 0 && goodBytes < bytes.length) await truncate(path, goodBytes);
  }
  return { segments, damagedBytes, tornBytes, mark };
}

function lastMark(records: readonly OutboxRecord[]): string | null {
  return records.findLast((record) => record.mark !== undefined)?.mark ?? null;
}
