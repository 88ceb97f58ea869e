import type { IppValue } from "./ippMessage.ts";
import { languageTags, textTags, valueTags } from "./ippMessage.ts";

/**
 * One value from its tag and bytes. Bytes that do not fit their syntax become `other`, so that one wrong
 * value does not cost the whole reply.
 *
 * **Source:** RFC 8010 section 3.9.
 */
export function decodeValue(tag: number, bytes: Buffer): IppValue {
  return decodeKnown(tag, bytes) ?? { syntax: "other", tag, bytes: new Uint8Array(bytes) };
}

function decodeKnown(tag: number, bytes: Buffer): IppValue | null {
  if (tag in textTags) {
    return { syntax: textTags[tag as keyof typeof textTags], text: bytes.toString("utf8") };
  }
  if (tag in languageTags) return decodeWithLanguage(tag as keyof typeof languageTags, bytes);
  if (tag <= valueTags.lastOutOfBand) return bytes.length === 0 ? { syntax: "outOfBand", tag } : null;
  switch (tag) {
    case valueTags.integer:
      return bytes.length === 4 ? { syntax: "integer", int: bytes.readInt32BE(0) } : null;
    case valueTags.enum:
      return bytes.length === 4 ? { syntax: "enum", int: bytes.readInt32BE(0) } : null;
    case valueTags.boolean:
      return decodeBoolean(bytes);
    case valueTags.octetString:
      return { syntax: "octetString", bytes: new Uint8Array(bytes) };
    case valueTags.dateTime:
      return decodeDateTime(bytes);
    case valueTags.resolution:
      return decodeResolution(bytes);
    case valueTags.rangeOfInteger:
      if (bytes.length !== 8) return null;
      return { syntax: "rangeOfInteger", lower: bytes.readInt32BE(0), upper: bytes.readInt32BE(4) };
    default:
      return null;
  }
}

function decodeBoolean(bytes: Buffer): IppValue | null {
  if (bytes.length !== 1 || bytes.readUInt8(0) > 1) return null;
  return { syntax: "boolean", bool: bytes.readUInt8(0) === 1 };
}

function decodeResolution(bytes: Buffer): IppValue | null {
  if (bytes.length !== 9) return null;
  const [cross, feed, units] = [bytes.readInt32BE(0), bytes.readInt32BE(4), bytes.readInt8(8)];
  return { syntax: "resolution", cross, feed, units };
}

function decodeWithLanguage(tag: keyof typeof languageTags, bytes: Buffer): IppValue | null {
  if (bytes.length < 4) return null;
  const languageEnd = 2 + bytes.readUInt16BE(0);
  if (languageEnd + 2 > bytes.length) return null;
  if (languageEnd + 2 + bytes.readUInt16BE(languageEnd) !== bytes.length) return null;
  const language = bytes.toString("utf8", 2, languageEnd);
  return { syntax: languageTags[tag], language, text: bytes.toString("utf8", languageEnd + 2) };
}

/** DateAndTime of RFC 2579 with its zone. A date that no calendar has, and a leap second, is left as bytes. */
function decodeDateTime(bytes: Buffer): IppValue | null {
  if (bytes.length !== 11) return null;
  const [month, day, hour, minute, second, tenth] = bytes.subarray(2, 8);
  const sign = { "+": 1, "-": -1 }[bytes.toString("latin1", 8, 9)];
  const [zoneHours, zoneRest] = bytes.subarray(9, 11);
  const fields = [bytes.readUInt16BE(0), month, day, hour, minute, second, tenth, zoneHours, zoneRest];
  const [year, mo, d, h, mi, s, t, zh, zm] = fields as [number, ...number[]];
  if (sign === undefined || !isDate(fields as number[])) return null;
  const zoneMinutes = sign * ((zh ?? 0) * 60 + (zm ?? 0));
  const localMs = Date.UTC(year, (mo ?? 1) - 1, d, h, mi, s, (t ?? 0) * 100);
  if (new Date(localMs).getUTCDate() !== d) return null;
  return { syntax: "dateTime", atMs: localMs - zoneMinutes * 60_000, zoneMinutes };
}

/** Least and most of year, month, day, hour, minute, second, tenth, zone hours, zone minutes. */
const dateLimits = [
  [100, 9_999],
  [1, 12],
  [1, 31],
  [0, 23],
  [0, 59],
  [0, 59],
  [0, 9],
  [0, 14],
  [0, 59],
] as const;

function isDate(fields: readonly number[]): boolean {
  return dateLimits.every(([least, most], i) => {
    const field = fields[i] ?? -1;
    return field >= least && field <= most;
  });
}
