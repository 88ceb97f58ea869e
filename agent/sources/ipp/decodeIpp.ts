import { ByteReader, IppFormatError } from "./byteReader.ts";
import { decodeValue } from "./decodeValue.ts";
import type { IppAttribute, IppGroup, IppMessage, IppValue } from "./ippMessage.ts";
import { deepestCollection, firstValueTag, groupTags, valueTags } from "./ippMessage.ts";

/**
 * Reads an IPP message, or says what is wrong with the bytes. Never throws.
 *
 * **Source:** RFC 8010 section 3.1.
 */
export function decodeIpp(bytes: Uint8Array): { message: IppMessage } | { malformed: string } {
  try {
    return { message: readMessage(new ByteReader(bytes)) };
  } catch (error) {
    if (error instanceof IppFormatError) return { malformed: error.message };
    throw error;
  }
}

function readMessage(reader: ByteReader): IppMessage {
  const version = { major: reader.octet(), minor: reader.octet() };
  const code = reader.int16();
  const requestId = reader.int32();
  const groups: IppGroup[] = [];
  for (;;) {
    const tag = reader.octet();
    if (tag === groupTags.end) return { version, code, requestId, groups, data: reader.rest() };
    if (tag === 0 || tag >= firstValueTag) {
      throw new IppFormatError(`tag 0x${tag.toString(16)} at octet ${reader.at - 1} begins no group`);
    }
    groups.push({ tag, attributes: readGroup(reader) });
  }
}

function readGroup(reader: ByteReader): IppAttribute[] {
  const attributes: { name: string; values: IppValue[] }[] = [];
  while (reader.peek() >= firstValueTag) {
    const tag = reader.octet();
    const name = reader.field().toString("utf8");
    const value = readValue(reader, tag, 0);
    if (name !== "") attributes.push({ name, values: [value] });
    else if (attributes.length > 0) attributes.at(-1)?.values.push(value);
    else throw new IppFormatError(`a further value at octet ${reader.at} follows no attribute`);
  }
  return attributes;
}

function readValue(reader: ByteReader, tag: number, depth: number): IppValue {
  const bytes = reader.field();
  if (tag === valueTags.begCollection) {
    return { syntax: "collection", members: readMembers(reader, depth + 1) };
  }
  if (tag === valueTags.endCollection || tag === valueTags.memberAttrName) {
    throw new IppFormatError(
      `tag 0x${tag.toString(16)} before octet ${reader.at} stands outside a collection`,
    );
  }
  return decodeValue(tag, bytes);
}

/** RFC 8010 section 3.1.6: names come as values of their own, every name-length is 0. */
function readMembers(reader: ByteReader, depth: number): IppAttribute[] {
  if (depth > deepestCollection) throw new IppFormatError(`collections deeper than ${deepestCollection}`);
  const members: { name: string; values: IppValue[] }[] = [];
  for (;;) {
    const tag = reader.octet();
    if (tag < firstValueTag) throw new IppFormatError(`a collection is not ended at octet ${reader.at - 1}`);
    if (reader.field().length > 0)
      throw new IppFormatError(`a member before octet ${reader.at} has a name-length`);
    if (tag === valueTags.endCollection) {
      reader.field();
      return members;
    }
    if (tag === valueTags.memberAttrName) {
      members.push({ name: reader.field().toString("utf8"), values: [] });
      continue;
    }
    const member = members.at(-1);
    if (!member) throw new IppFormatError(`a member value before octet ${reader.at} has no name`);
    member.values.push(readValue(reader, tag, depth));
  }
}
