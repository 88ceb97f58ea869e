import type { IppAttribute, IppMessage, IppValue } from "./ippMessage.ts";
import { groupTags, languageTags, longestField, textTags, valueTags } from "./ippMessage.ts";

/**
 * The bytes of an IPP message. Throws a RangeError for an attribute that has no value and for a name or
 * value longer than 32,767 octets.
 *
 * **Source:** RFC 8010 section 3.1.
 */
export function encodeIpp(message: IppMessage): Buffer {
  const { version, code, requestId, groups, data } = message;
  const head = Buffer.alloc(8);
  head.writeUInt8(version.major, 0);
  head.writeUInt8(version.minor, 1);
  head.writeUInt16BE(code, 2);
  head.writeInt32BE(requestId, 4);
  const body = groups.flatMap((group) => [octet(group.tag), ...group.attributes.flatMap(encodeAttribute)]);
  return Buffer.concat([head, ...body, octet(groupTags.end), data]);
}

function encodeAttribute(attribute: IppAttribute): Buffer[] {
  if (attribute.values.length === 0) throw new RangeError(`attribute ${attribute.name} has no value`);
  return attribute.values.flatMap((value, i) => encodeNamed(i === 0 ? attribute.name : "", value));
}

function encodeNamed(name: string, value: IppValue): Buffer[] {
  const { tag, bytes } = encodeValue(value);
  const own = [octet(tag), field(Buffer.from(name)), field(bytes)];
  return value.syntax === "collection"
    ? [...own, ...value.members.flatMap(encodeMember), ...endCollection]
    : own;
}

function encodeMember(member: IppAttribute): Buffer[] {
  const name = [octet(valueTags.memberAttrName), field(none), field(Buffer.from(member.name))];
  return [...name, ...member.values.flatMap((value) => encodeNamed("", value))];
}

function encodeValue(value: IppValue): { tag: number; bytes: Uint8Array } {
  switch (value.syntax) {
    case "integer":
    case "enum":
      return { tag: valueTags[value.syntax], bytes: int32s(value.int) };
    case "boolean":
      return { tag: valueTags.boolean, bytes: octet(value.bool ? 1 : 0) };
    case "octetString":
      return { tag: valueTags.octetString, bytes: value.bytes };
    case "dateTime":
      return { tag: valueTags.dateTime, bytes: encodeDateTime(value.atMs, value.zoneMinutes) };
    case "resolution": {
      const units = Buffer.alloc(1);
      units.writeInt8(value.units);
      return { tag: valueTags.resolution, bytes: Buffer.concat([int32s(value.cross, value.feed), units]) };
    }
    case "rangeOfInteger":
      return { tag: valueTags.rangeOfInteger, bytes: int32s(value.lower, value.upper) };
    case "collection":
      return { tag: valueTags.begCollection, bytes: none };
    case "outOfBand":
      return { tag: value.tag, bytes: none };
    case "other":
      return { tag: value.tag, bytes: value.bytes };
    case "textWithLanguage":
    case "nameWithLanguage": {
      const parts = [field(Buffer.from(value.language)), field(Buffer.from(value.text))];
      return { tag: tagOf(value.syntax), bytes: Buffer.concat(parts) };
    }
    default:
      return { tag: tagOf(value.syntax), bytes: Buffer.from(value.text) };
  }
}

function encodeDateTime(atMs: number, zoneMinutes: number): Buffer {
  const local = new Date(atMs + zoneMinutes * 60_000);
  const bytes = Buffer.alloc(11);
  bytes.writeUInt16BE(local.getUTCFullYear(), 0);
  const fields = [local.getUTCMonth() + 1, local.getUTCDate(), local.getUTCHours(), local.getUTCMinutes()];
  fields.push(local.getUTCSeconds(), Math.floor(local.getUTCMilliseconds() / 100));
  fields.forEach((each, i) => bytes.writeUInt8(each, 2 + i));
  bytes.write(zoneMinutes < 0 ? "-" : "+", 8, "latin1");
  bytes.writeUInt8(Math.floor(Math.abs(zoneMinutes) / 60), 9);
  bytes.writeUInt8(Math.abs(zoneMinutes) % 60, 10);
  return bytes;
}

const none = Buffer.alloc(0);
const endCollection = [octet(valueTags.endCollection), field(none), field(none)];

const tagOfSyntax: ReadonlyMap<string, number> = new Map(
  Object.entries({ ...textTags, ...languageTags }).map(([tag, syntax]) => [syntax, Number(tag)]),
);

function tagOf(syntax: string): number {
  const tag = tagOfSyntax.get(syntax);
  if (tag === undefined) throw new RangeError(`no tag for syntax ${syntax}`);
  return tag;
}

function octet(value: number): Buffer {
  return Buffer.of(value);
}

function int32s(...values: number[]): Buffer {
  const bytes = Buffer.alloc(4 * values.length);
  values.forEach((value, i) => bytes.writeInt32BE(value, 4 * i));
  return bytes;
}

function field(bytes: Uint8Array): Buffer {
  if (bytes.length > longestField)
    throw new RangeError(`a field of ${bytes.length} octets is over ${longestField}`);
  const length = Buffer.alloc(2);
  length.writeUInt16BE(bytes.length);
  return Buffer.concat([length, bytes]);
}
