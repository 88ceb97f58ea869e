import { crc32, deflateSync } from "node:zlib";

/** A PNG of one colour with transparency (ISO/IEC 15948); `packed` changes what stands for its pixels. */
export function aPng(widthPx: number, heightPx: number, packed?: Buffer): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(widthPx, 0);
  head.writeUInt32BE(heightPx, 4);
  head.set([8, 6, 0, 0, 0], 8);
  const line = Buffer.concat([Buffer.from([0]), Buffer.alloc(widthPx * 4, Buffer.from([14, 82, 102, 255]))]);
  const pixels = packed ?? deflateSync(Buffer.concat(Array.from({ length: heightPx }, () => line)));
  const magic = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([magic, chunk("IHDR", head), chunk("IDAT", pixels), chunk("IEND", Buffer.alloc(0))]);
}

function chunk(name: string, body: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(name, "latin1"), body]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(body.length);
  sum.writeUInt32BE(crc32(named));
  return Buffer.concat([length, named, sum]);
}
