import { longestField } from "./ippMessage.ts";

/** What is wrong with a reply; thrown inside the codec only, and turned into a word at its door. */
export class IppFormatError extends Error {}

/** Reads big-endian fields from the front of a buffer; throws `IppFormatError` where it is too short. */
export class ByteReader {
  readonly #bytes: Buffer;
  #at = 0;

  constructor(bytes: Uint8Array) {
    this.#bytes = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  }

  get at(): number {
    return this.#at;
  }

  octet(): number {
    return this.#take(1).readUInt8(0);
  }

  int16(): number {
    return this.#take(2).readUInt16BE(0);
  }

  int32(): number {
    return this.#take(4).readInt32BE(0);
  }

  /** A field behind its own 16-bit length. */
  field(): Buffer {
    const length = this.int16();
    if (length > longestField) {
      throw new IppFormatError(`length ${length} at octet ${this.#at - 2} is over ${longestField}`);
    }
    return this.#take(length);
  }

  rest(): Buffer {
    return this.#take(this.#bytes.length - this.#at);
  }

  /** The next octet, left where it is. */
  peek(): number {
    if (this.#at >= this.#bytes.length) throw new IppFormatError(`ends at octet ${this.#at}, too early`);
    return this.#bytes.readUInt8(this.#at);
  }

  #take(length: number): Buffer {
    const end = this.#at + length;
    if (end > this.#bytes.length) {
      throw new IppFormatError(`ends at octet ${this.#bytes.length}, ${end - this.#bytes.length} too early`);
    }
    const taken = this.#bytes.subarray(this.#at, end);
    this.#at = end;
    return taken;
  }
}
