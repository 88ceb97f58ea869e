import { inflateSync } from "node:zlib";

/** What the directory of a WOFF file holds of each table: W3C WOFF File Format 1.0, section 4. */
const woffHeader = { tables: 12, flavor: 4, bytes: 44 };
const woffEntryBytes = 20;

/** The same of an OpenType font file: ISO/IEC 14496-22, section 4.5 (table directory). */
const fontHeaderBytes = 12;
const fontEntryBytes = 16;

type Table = { readonly tag: string; readonly checksum: number; readonly body: Buffer };

/**
 * The font file that a WOFF 1.0 file wraps, its tables unpacked: they are read again for every document, and Node
 * unpacks them many times faster than the program that lays the text out.
 */
export function unwrapWoff(woff: Buffer): Buffer {
  const count = woff.readUInt16BE(woffHeader.tables);
  const tables = Array.from({ length: count }, (_, at) =>
    tableAt(woff, woffHeader.bytes + at * woffEntryBytes),
  );
  const directory = Buffer.alloc(fontHeaderBytes + count * fontEntryBytes);
  woff.copy(directory, 0, woffHeader.flavor, woffHeader.flavor + 4);
  const power = Math.floor(Math.log2(count));
  directory.writeUInt16BE(count, 4);
  directory.writeUInt16BE(16 * 2 ** power, 6);
  directory.writeUInt16BE(power, 8);
  directory.writeUInt16BE(16 * (count - 2 ** power), 10);
  const parts: Buffer[] = [directory];
  let offset = directory.length;
  tables.forEach(({ tag, checksum, body }, at) => {
    const entry = fontHeaderBytes + at * fontEntryBytes;
    directory.write(tag, entry, "latin1");
    directory.writeUInt32BE(checksum, entry + 4);
    directory.writeUInt32BE(offset, entry + 8);
    directory.writeUInt32BE(body.length, entry + 12);
    // Tables begin at multiples of four bytes.
    const padding = Buffer.alloc((4 - (body.length % 4)) % 4);
    parts.push(body, padding);
    offset += body.length + padding.length;
  });
  return Buffer.concat(parts);
}

function tableAt(woff: Buffer, entry: number): Table {
  const field = (at: number) => woff.readUInt32BE(entry + at);
  const [offset, packedLength, length] = [field(4), field(8), field(12)];
  const packed = woff.subarray(offset, offset + packedLength);
  const body = packedLength === length ? packed : inflateSync(packed);
  return { tag: woff.toString("latin1", entry, entry + 4), checksum: field(16), body };
}
