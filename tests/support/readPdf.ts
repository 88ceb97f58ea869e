import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";

export type ReadPdf = {
  readonly pages: number;
  /** Width and height of the first page, points. */
  readonly sizePt: readonly [number, number];
  /** All text of the first page, a space between lines and columns. */
  readonly text: string;
  readonly title: unknown;
  readonly language: unknown;
};

/** Reads a PDF back with another program's reader. */
export async function readPdf(bytes: Buffer): Promise<ReadPdf> {
  const loading = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const document = await loading.promise;
  const page = await document.getPage(1);
  const { items } = await page.getTextContent();
  const { info } = await document.getMetadata();
  const { width, height } = page.getViewport({ scale: 1 });
  const text = items.flatMap((item) => ("str" in item ? [item.str, item.hasEOL ? " " : ""] : [])).join("");
  const about = info as Record<string, unknown>;
  const read = { pages: document.numPages, sizePt: [width, height] as const };
  await loading.destroy();
  return {
    ...read,
    text: text.replace(/\s+/g, " "),
    title: about["Title"],
    language: about["Language"],
  };
}
