import { inflateSync } from "node:zlib";

/** A logo that can be printed. */
export type Logo = {
  readonly bytes: Buffer;
  readonly type: "image/png" | "image/jpeg";
  readonly widthPx: number;
  readonly heightPx: number;
};

/** A report's corner holds a few centimetres of logo: more bytes or pixels than these print no better. */
const mostBytes = 512 * 1024;
const mostPx = 4_000;

const pngMagic = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

/**
 * Reads a logo from base64. It is taken for what its first bytes say it is, and only if it can be drawn: the sentence
 * says why not. Sources: PNG, ISO/IEC 15948 sections 5.2, 11.2.2 and 10; JPEG, ITU-T T.81 annex B.
 */
export function readLogo(base64: string): Logo | { readonly sentence: string } {
  if (base64.length > Math.ceil(mostBytes / 3) * 4)
    return no(`is larger than ${mostBytes / 1024} kB; make it smaller`);
  const bytes = Buffer.from(base64, "base64");
  if (bytes.length === 0) return no("is empty");
  if (bytes.length > mostBytes) return no(`is larger than ${mostBytes / 1024} kB; make it smaller`);
  if (bytes.subarray(0, 8).equals(pngMagic)) return readPng(bytes);
  if (bytes.readUIntBE(0, Math.min(3, bytes.length)) === 0xffd8ff) return readJpeg(bytes);
  return no("is neither a PNG nor a JPEG picture");
}

/** Channels by colour type. */
const pngChannels: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };

function readPng(bytes: Buffer): Logo | { readonly sentence: string } {
  const chunks = pngChunks(bytes);
  const head = chunks.find(({ name }) => name === "IHDR")?.body;
  if (head === undefined || head.length !== 13) return no("is a PNG picture that is broken off");
  const [widthPx, heightPx] = [head.readUInt32BE(0), head.readUInt32BE(4)];
  const [depth, colour, interlace] = [head.readUInt8(8), head.readUInt8(9), head.readUInt8(12)];
  const wrongSize = whyNotSize(widthPx, heightPx);
  if (wrongSize !== null) return no(wrongSize);
  if (interlace !== 0) return no("is an interlaced PNG; save it without interlacing");
  const channels = pngChannels[colour];
  if (channels === undefined || ![1, 2, 4, 8, 16].includes(depth)) return no("is a PNG of an unknown kind");
  if (colour === 3 && !chunks.some(({ name }) => name === "PLTE")) return no("is a PNG without its colours");
  const lines = Math.ceil((widthPx * depth * channels) / 8) + 1;
  const packed = Buffer.concat(chunks.filter(({ name }) => name === "IDAT").map(({ body }) => body));
  // What draws it unpacks it out of reach of a catch: it is tried here.
  if (!unpacksTo(packed, lines * heightPx)) return no("is a PNG picture that is damaged");
  return { bytes, type: "image/png", widthPx, heightPx };
}

function pngChunks(bytes: Buffer): { name: string; body: Buffer }[] {
  const chunks: { name: string; body: Buffer }[] = [];
  for (let at = 8; at + 12 <= bytes.length;) {
    const length = bytes.readUInt32BE(at);
    const name = bytes.toString("latin1", at + 4, at + 8);
    if (at + 12 + length > bytes.length) return [];
    chunks.push({ name, body: bytes.subarray(at + 8, at + 8 + length) });
    if (name === "IEND") return chunks;
    at += 12 + length;
  }
  return [];
}

/** Whether the pixels are there, no more and no fewer; more are not unpacked. */
function unpacksTo(packed: Buffer, length: number): boolean {
  try {
    return inflateSync(packed, { maxOutputLength: length + 1 }).length === length;
  } catch {
    return false;
  }
}

/** Frames that a PDF viewer draws: baseline, extended and progressive. */
const jpegFrames: ReadonlySet<number> = new Set([0xc0, 0xc1, 0xc2]);

function readJpeg(bytes: Buffer): Logo | { readonly sentence: string } {
  for (let at = 2; at + 9 < bytes.length;) {
    if (bytes.readUInt8(at) !== 0xff) break;
    const marker = bytes.readUInt8(at + 1);
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (jpegFrames.has(marker)) {
      const [heightPx, widthPx] = [bytes.readUInt16BE(at + 5), bytes.readUInt16BE(at + 7)];
      const wrongSize = whyNotSize(widthPx, heightPx);
      return wrongSize === null ? { bytes, type: "image/jpeg", widthPx, heightPx } : no(wrongSize);
    }
    at += 2 + bytes.readUInt16BE(at + 2);
  }
  return no("is a JPEG picture that is broken off, or of a kind that cannot be printed");
}

function whyNotSize(widthPx: number, heightPx: number): string | null {
  if (widthPx === 0 || heightPx === 0) return "is a picture of no size";
  if (widthPx <= mostPx && heightPx <= mostPx) return null;
  return `is ${widthPx} by ${heightPx} pixels; ${mostPx} by ${mostPx} are the most`;
}

function no(reason: string): { readonly sentence: string } {
  return { sentence: `logo: it ${reason}.` };
}
