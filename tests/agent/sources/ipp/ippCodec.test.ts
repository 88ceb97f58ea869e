import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeIpp } from "../../../../agent/sources/ipp/decodeIpp.ts";
import { encodeIpp } from "../../../../agent/sources/ipp/encodeIpp.ts";
import type { IppAttribute, IppMessage, IppValue } from "../../../../agent/sources/ipp/ippMessage.ts";
import { bytesOf, rfc8010Examples } from "./rfc8010Examples.ts";

function decoded(bytes: Uint8Array): IppMessage {
  const answer = decodeIpp(bytes);
  if ("malformed" in answer) throw new Error(answer.malformed);
  return { ...answer.message, data: new Uint8Array(answer.message.data) };
}

function malformed(hex: string): string {
  const answer = decodeIpp(bytesOf(hex));
  return "malformed" in answer ? answer.malformed : "well formed";
}

describe("the worked examples of RFC 8010 appendix A", () => {
  test.each(rfc8010Examples)("$title is read as it is meant", ({ octets, message }) => {
    expect(decoded(bytesOf(octets))).toEqual(message);
  });
  test.each(rfc8010Examples)("$title is written byte for byte", ({ octets, message }) => {
    expect(encodeIpp(message).toString("hex")).toBe(bytesOf(octets).toString("hex"));
  });
  test.each(rfc8010Examples)(
    "$title, cut anywhere before its end, is called too short",
    ({ octets, message }) => {
      const bytes = bytesOf(octets);
      const wholeLength = bytes.length - message.data.length;
      for (let length = 0; length < wholeLength; length += 1) {
        expect(decodeIpp(bytes.subarray(0, length))).toHaveProperty("malformed");
      }
      expect(decodeIpp(bytes.subarray(0, wholeLength))).toHaveProperty("message");
    },
  );
});

describe("values", () => {
  // RFC 2579 DateAndTime gives this very example: Tuesday May 26, 1992 at 1:30:15 PM EDT = 1992-5-26,13:30:15.0,-4:0
  test("the date of RFC 2579's own example is the instant it names", () => {
    const date = `31 0001 "d" 000b 07c8 05 1a 0d 1e 0f 00 2d 04 00`;
    const message = decoded(bytesOf(`0101 0000 00000001 04 ${date} 03`));
    expect(message.groups[0]?.attributes[0]?.values).toEqual([
      { syntax: "dateTime", atMs: Date.UTC(1992, 4, 26, 17, 30, 15), zoneMinutes: -240 },
    ]);
    expect(encodeIpp(message).toString("hex")).toBe(
      bytesOf(`0101 0000 00000001 04 ${date} 03`).toString("hex"),
    );
  });
  test("bytes that do not fit their syntax are kept and do not cost the rest", () => {
    const message = decoded(
      bytesOf(`0101 0000 00000001 04 21 0001 "a" 0003 010203 31 0001 "b" 000b 07c8 0d 1a 0d1e0f00 2d 0400
        35 0001 "c" 0004 0009 0000 21 0001 "d" 0004 00000007 03`),
    );
    const values = message.groups[0]?.attributes.map(({ values: [value] }) => value?.syntax);
    expect(values).toEqual(["other", "other", "other", "integer"]);
  });
  test("an attribute without a value and a field over 32,767 octets are a programmer's mistakes", () => {
    const withValues = (values: IppValue[]): IppMessage => ({
      version: { major: 1, minor: 1 },
      code: 0,
      requestId: 1,
      groups: [{ tag: 1, attributes: [{ name: "job-name", values }] }],
      data: new Uint8Array(),
    });
    expect(() => encodeIpp(withValues([]))).toThrow("job-name has no value");
    expect(() => encodeIpp(withValues([{ syntax: "text", text: "x".repeat(32_768) }]))).toThrow(
      "32768 octets",
    );
  });
});

describe("junk is called by its name", () => {
  test.each([
    ["", "ends at octet 0"],
    ["0101 0000 00000001", "ends at octet 8"],
    ["0101 0000 00000001 00", "tag 0x0 at octet 8 begins no group"],
    ["0101 0000 00000001 41", "tag 0x41 at octet 8 begins no group"],
    ["0101 0000 00000001 01 21 0000 0004 00000001 03", "follows no attribute"],
    ["0101 0000 00000001 01 21 ffff", "length 65535 at octet 10 is over 32767"],
    ["0101 0000 00000001 01 37 0001 61 0000 03", "stands outside a collection"],
    ["0101 0000 00000001 01 34 0001 61 0000 03", "a collection is not ended"],
    ["0101 0000 00000001 01 34 0001 61 0000 21 0000 0004 00000001 37 0000 0000 03", "has no name"],
    [`"HTTP/1.0 404 Not Found"`, "tag 0x20 at octet 8 begins no group"],
  ])("%s", (hex, words) => {
    expect(malformed(hex)).toContain(words);
  });
  test("collections nested without end", () => {
    const member = "4a 0000 0001 61 34 0000 0000 ";
    expect(malformed(`0101 0000 00000001 01 34 0001 61 0000 ${member.repeat(5_000)}`)).toContain(
      "deeper than 16",
    );
  });
});

const int32 = fc.integer({ min: -0x80000000, max: 0x7fffffff });
const text = fc.string({ unit: "grapheme", maxLength: 40 });
const bytes = fc.uint8Array({ maxLength: 40 });
const { attributes } = fc.letrec<{ value: IppValue; attribute: IppAttribute; attributes: IppAttribute[] }>(
  (tie) => ({
    value: fc.oneof(
      { depthSize: "small", withCrossShrink: true },
      fc.record({ syntax: fc.constantFrom("integer" as const, "enum" as const), int: int32 }),
      fc.record({ syntax: fc.constant("outOfBand" as const), tag: fc.integer({ min: 0x10, max: 0x1f }) }),
      fc.record({ syntax: fc.constant("boolean" as const), bool: fc.boolean() }),
      fc.record({
        syntax: fc.constantFrom("text", "name", "keyword", "uri", "uriScheme", "charset", "naturalLanguage"),
        text,
      }) as fc.Arbitrary<IppValue>,
      fc.record({
        syntax: fc.constantFrom("textWithLanguage" as const, "nameWithLanguage" as const),
        text,
        language: text,
      }),
      fc.record({ syntax: fc.constant("octetString" as const), bytes }),
      fc.record({
        syntax: fc.constant("dateTime" as const),
        atMs: fc.integer({ min: -20_000_000_000, max: 70_000_000_000 }).map((tenths) => tenths * 100),
        zoneMinutes: fc.integer({ min: -14 * 60, max: 14 * 60 }),
      }),
      fc.record({
        syntax: fc.constant("resolution" as const),
        cross: int32,
        feed: int32,
        units: fc.constantFrom(3, 4),
      }),
      fc.record({ syntax: fc.constant("rangeOfInteger" as const), lower: int32, upper: int32 }),
      fc.record({ syntax: fc.constant("other" as const), tag: fc.integer({ min: 0x50, max: 0xff }), bytes }),
      fc.record({ syntax: fc.constant("collection" as const), members: tie("attributes") }),
    ),
    attribute: fc.record({
      name: fc.string({ minLength: 1, maxLength: 20 }),
      values: fc.array(tie("value"), { minLength: 1, maxLength: 3 }),
    }),
    attributes: fc.array(tie("attribute"), { maxLength: 4 }),
  }),
);
const message: fc.Arbitrary<IppMessage> = fc.record({
  version: fc.record({ major: fc.integer({ min: 0, max: 255 }), minor: fc.integer({ min: 0, max: 255 }) }),
  code: fc.integer({ min: 0, max: 0xffff }),
  requestId: int32,
  groups: fc.array(fc.record({ tag: fc.constantFrom(1, 2, 4, 5, 6, 7, 9), attributes: attributes }), {
    maxLength: 4,
  }),
  data: bytes,
});

describe("any message", () => {
  test("comes back as it was written", () => {
    fc.assert(
      fc.property(message, (written) => {
        expect(decoded(encodeIpp(written))).toEqual(written);
      }),
      { numRuns: 500 },
    );
  });
  test("random bytes never crash the reader", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (junk) => {
        const answer = decodeIpp(junk);
        expect("malformed" in answer || "message" in answer).toBe(true);
      }),
      { numRuns: 2_000 },
    );
  });
  test("a message with one octet changed never crashes the reader, and what is read can be written", () => {
    const change = fc.tuple(fc.constantFrom(...rfc8010Examples), fc.nat(), fc.integer({ min: 0, max: 255 }));
    fc.assert(
      fc.property(change, ([{ octets }, place, octet]) => {
        const spoilt = bytesOf(octets);
        spoilt[place % spoilt.length] = octet;
        const answer = decodeIpp(spoilt);
        if ("message" in answer) expect(decodeIpp(encodeIpp(answer.message))).toHaveProperty("message");
        else expect(answer.malformed).not.toBe("");
      }),
      { numRuns: 2_000 },
    );
  });
});
