import { describe, expect, it } from "vitest";
import { crc32 } from "../../../agent/outbox/crc32.ts";

describe("crc32", () => {
  // The check value of CRC-32 in common catalogues of CRCs, for the nine digits (from memory).
  it("gives CBF43926 for 123456789", () => {
    expect(crc32(Buffer.from("123456789"))).toBe(0xcbf43926);
  });

  // PNG (ISO/IEC 15948): the IEND chunk is empty and ends every PNG file with AE 42 60 82.
  it("gives the checksum that ends every PNG file", () => {
    expect(crc32(Buffer.from("IEND"))).toBe(0xae426082);
  });

  it("is 0 for nothing", () => {
    expect(crc32(Buffer.alloc(0))).toBe(0);
  });

  it("goes on with more bytes as if they had come at once", () => {
    expect(crc32(Buffer.from("6789"), crc32(Buffer.from("12345")))).toBe(0xcbf43926);
  });
});
