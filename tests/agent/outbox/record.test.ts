import { describe, expect, it } from "vitest";
import { decodeRecords, encodeRecord } from "../../../agent/outbox/record.ts";
import { aSession } from "../../support/outboxItems.ts";

const records = [1, 2, 3, 4].map((seq) => ({ item: { ...aSession(`s-${seq}`), seq } }));
const encoded = records.map(encodeRecord);
const file = Buffer.concat(encoded);
const ends = encoded.map((_, index) => Buffer.concat(encoded.slice(0, index + 1)).length);

/** Sequence numbers that are read from these bytes. */
function read(bytes: Buffer): number[] {
  return decodeRecords(bytes).records.map((record) => record.item.seq);
}

describe("decodeRecords", () => {
  it("reads what was written", () => {
    expect(decodeRecords(file)).toEqual({ records, goodBytes: file.length, damagedBytes: 0 });
  });

  it("keeps a mark with its item", () => {
    const [record] = records;
    if (!record) throw new Error("no record");
    const marked = { ...record, mark: "line 7" };
    expect(decodeRecords(encodeRecord(marked)).records).toEqual([marked]);
  });

  it("reads every whole record of a file that was cut at any byte", () => {
    for (let length = 0; length <= file.length; length++) {
      const whole = ends.filter((end) => end <= length).length;
      expect(read(file.subarray(0, length)), `cut at ${length}`).toEqual([1, 2, 3, 4].slice(0, whole));
      expect(decodeRecords(file.subarray(0, length)).goodBytes).toBe(whole === 0 ? 0 : ends[whole - 1]);
    }
  });

  it("loses only the record in which a byte is wrong, at any byte", () => {
    for (let at = 0; at < file.length; at++) {
      const damaged = Buffer.from(file);
      damaged[at] = (damaged[at] ?? 0) ^ 0xff;
      const hit = ends.findIndex((end) => at < end);
      expect(read(damaged), `damaged at ${at}`).toEqual([1, 2, 3, 4].filter((seq) => seq !== hit + 1));
    }
  });

  it("reads nothing in a stretch of zeros, as a power cut may leave it", () => {
    expect(decodeRecords(Buffer.concat([file, Buffer.alloc(4096)]))).toEqual({
      records,
      goodBytes: file.length,
      damagedBytes: 0,
    });
  });
});
