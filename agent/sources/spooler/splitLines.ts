import { isUtf8 } from "node:buffer";

const newLine = 0x0a;

/**
 * Takes bytes as they come and hands on whole lines, without their ends; null for a line that is not UTF-8
 * or longer than `mostBytes`. Bytes are joined before they are read as text, as a letter may come in halves.
 */
export function splitLines(
  mostBytes: number,
  onLine: (line: string | null) => void,
): (bytes: Buffer) => void {
  let parts: Buffer[] = [];
  let heldBytes = 0;
  let isTooLong = false;

  function hold(bytes: Buffer): void {
    if (heldBytes + bytes.length > mostBytes) isTooLong = true;
    if (isTooLong) parts = [];
    else parts.push(bytes);
    heldBytes = isTooLong ? 0 : heldBytes + bytes.length;
  }

  function give(): void {
    const line = isTooLong ? null : decode(Buffer.concat(parts));
    parts = [];
    heldBytes = 0;
    isTooLong = false;
    onLine(line);
  }

  return (bytes) => {
    let from = 0;
    for (let end = bytes.indexOf(newLine); end >= 0; end = bytes.indexOf(newLine, from)) {
      hold(bytes.subarray(from, end));
      give();
      from = end + 1;
    }
    if (from < bytes.length) hold(bytes.subarray(from));
  };
}

/** A line in the code page of some country must not become a line with wrong names in it. */
function decode(bytes: Buffer): string | null {
  return isUtf8(bytes) ? bytes.toString("utf8").replace(/^\uFEFF|\r$/g, "") : null;
}
