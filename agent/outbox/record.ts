import { anyItem } from "@boothward/shared-types";
import * as z from "zod";
import { crc32 } from "./crc32.ts";

/** What one record of a segment file holds: an item, and how far its source had come with it. */
export const outboxRecord = z.object({ item: anyItem, mark: z.string().optional() });
export type OutboxRecord = z.infer<typeof outboxRecord>;

/** Length and checksum before each record, four bytes each, little endian. */
const headBytes = 8;

/** A fat item is 6 kB; anything longer is a mistake, or a length field that was damaged. */
export const maxRecordBytes = 64 * 1024;

/** Bytes of a record as they stand in a segment file. */
export function encodeRecord(record: OutboxRecord): Buffer {
  const payload = Buffer.from(JSON.stringify(record));
  const bytes = Buffer.allocUnsafe(headBytes + payload.length);
  bytes.writeUInt32LE(payload.length, 0);
  payload.copy(bytes, headBytes);
  bytes.writeUInt32LE(checksumOf(bytes, 0, payload.length), 4);
  return bytes;
}

/** The checksum covers the length too, so that a damaged length is never believed. */
function checksumOf(bytes: Buffer, offset: number, length: number): number {
  const body = bytes.subarray(offset + headBytes, offset + headBytes + length);
  return crc32(body, crc32(bytes.subarray(offset, offset + 4)));
}

export type Decoded = {
  readonly records: OutboxRecord[];
  /** Where the last whole record ends: what follows is a torn tail. */
  readonly goodBytes: number;
  /** Bytes between whole records that could not be read. */
  readonly damagedBytes: number;
};

/**
 * Reads every whole record of a segment file, passing over damaged stretches.
 *
 * After a damaged place it looks for the next byte at which a record with a right checksum begins, so that
 * one bad sector costs only the records that lie in it.
 */
export function decodeRecords(bytes: Buffer): Decoded {
  const records: OutboxRecord[] = [];
  let goodBytes = 0;
  let damagedBytes = 0;
  for (let offset = 0; offset + headBytes <= bytes.length;) {
    const record = recordAt(bytes, offset);
    if (!record) {
      offset += 1;
      continue;
    }
    damagedBytes += offset - goodBytes;
    records.push(record.record);
    offset = goodBytes = record.endsAt;
  }
  return { records, goodBytes, damagedBytes };
}

function recordAt(bytes: Buffer, offset: number): { record: OutboxRecord; endsAt: number } | null {
  const length = bytes.readUInt32LE(offset);
  const endsAt = offset + headBytes + length;
  if (length === 0 || length > maxRecordBytes || endsAt > bytes.length) return null;
  if (bytes.readUInt32LE(offset + 4) !== checksumOf(bytes, offset, length)) return null;
  const record = parsePayload(bytes.toString("utf8", offset + headBytes, endsAt));
  return record && { record, endsAt };
}

function parsePayload(text: string): OutboxRecord | null {
  try {
    return outboxRecord.parse(JSON.parse(text));
  } catch {
    return null;
  }
}
