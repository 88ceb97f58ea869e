const table = Int32Array.from({ length: 256 }, (_, byte) => {
  let rest = byte;
  for (let bit = 0; bit < 8; bit++) rest = rest & 1 ? (rest >>> 1) ^ 0xedb88320 : rest >>> 1;
  return rest;
});

/**
 * CRC-32 of the given bytes, as an unsigned number; give the sum so far to go on with more bytes.
 *
 * Node's own `zlib.crc32` begins with Node 22.
 *
 * **Source:** ISO/IEC 13239 and PNG (ISO/IEC 15948 annex D), reflected polynomial 0xEDB88320.
 */
export function crc32(bytes: Uint8Array, soFar = 0): number {
  let rest = ~soFar;
  for (const byte of bytes) rest = (table[(rest ^ byte) & 0xff] ?? 0) ^ (rest >>> 8);
  return ~rest >>> 0;
}
