/**
 * The text of a file as a spreadsheet or a calendar writes it: UTF-8, UTF-16 with its mark, else Windows-1252, which
 * spreadsheets of Western Europe and America save as "CSV". Null where the file cannot be had.
 */
export async function readFileText(file: Blob): Promise<string | null> {
  const bytes = await file.arrayBuffer().then(
    (read) => new Uint8Array(read),
    () => null,
  );
  if (bytes === null) return null;
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
