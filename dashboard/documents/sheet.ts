import PDFDocument from "pdfkit";
import { runsOf, useFont, type Face, type Run } from "./faces.ts";

/** How a piece of text looks. */
export type Look = {
  readonly face: Face;
  readonly sizePt: number;
  readonly colour?: string;
  /** At most so many lines; the last ends with an ellipsis. */
  readonly mostLines?: number;
  readonly align?: "left" | "right" | "center";
};

export type PaperName = "a4" | "letter";

/** Points; ISO 216 A4 is 210 by 297 mm, ANSI A 8.5 by 11 inches. */
const papers: Readonly<Record<PaperName, readonly [number, number]>> = {
  a4: [595.28, 841.89],
  letter: [612, 792],
};

export const marginPt = 48;

/** Lines stand so far apart, in sizes of their text. */
const leading = 1.28;

/** One printed sheet that is drawn on from the top; the same calls give the same bytes. */
export class Sheet {
  readonly doc: InstanceType<typeof PDFDocument>;
  readonly widthPt: number;
  readonly heightPt: number;
  readonly #known = new Set<string>();
  readonly #bytes: Promise<Buffer>;

  constructor(
    paper: PaperName,
    about: { title: string; author: string; madeAtMs: number; language: string },
  ) {
    const [widthPt, heightPt] = papers[paper];
    this.widthPt = widthPt;
    this.heightPt = heightPt;
    this.doc = new PDFDocument({
      ...{
        size: [widthPt, heightPt],
        margin: 0,
        pdfVersion: "1.7",
        lang: about.language,
        displayTitle: true,
      },
      // No standard font is looked for: all are embedded.
      font: null as unknown as string,
      info: {
        ...{ Title: about.title, Author: about.author, Creator: "Boothward", Producer: "Boothward" },
        CreationDate: new Date(about.madeAtMs),
      },
    });
    const chunks: Buffer[] = [];
    this.#bytes = new Promise((resolve, reject) => {
      this.doc.on("data", (chunk: Buffer) => chunks.push(chunk));
      this.doc.on("end", () => resolve(Buffer.concat(chunks)));
      this.doc.on("error", reject);
    });
  }

  /** Writes text into a column, broken into lines; gives the y below it. */
  write(text: string, look: Look, xPt: number, yPt: number, widthPt: number): number {
    const lines = this.#linesOf(text, look, widthPt);
    lines.forEach((line, at) => {
      const free = widthPt - this.#width(line, look);
      const shift = look.align === "right" ? free : look.align === "center" ? free / 2 : 0;
      this.#line(line, look, xPt + shift, yPt + at * look.sizePt * leading);
    });
    return yPt + lines.length * look.sizePt * leading;
  }

  rule(yPt: number, colour: string, thickPt: number): void {
    this.doc
      .moveTo(marginPt, yPt)
      .lineTo(this.widthPt - marginPt, yPt)
      .lineWidth(thickPt)
      .strokeColor(colour)
      .stroke();
  }

  finish(): Promise<Buffer> {
    this.doc.end();
    return this.#bytes;
  }

  #linesOf(text: string, look: Look, widthPt: number): string[] {
    const lines: string[] = [];
    const spacePt = this.#width(" ", look);
    let line = "";
    let linePt = 0;
    for (const word of text.split(/\s+/).filter((each) => each !== "")) {
      const wordPt = this.#width(word, look);
      if (line !== "" && linePt + spacePt + wordPt <= widthPt) {
        line += ` ${word}`;
        linePt += spacePt + wordPt;
        continue;
      }
      if (line !== "") lines.push(line);
      line = this.#cutTo(word, look, widthPt);
      linePt = wordPt;
    }
    if (line !== "") lines.push(line);
    const most = look.mostLines ?? Infinity;
    if (lines.length <= most) return lines;
    const last = `${lines[most - 1] ?? ""} …`;
    return [...lines.slice(0, most - 1), this.#cutTo(last, look, widthPt)];
  }

  /** A word, or a last line, that is wider than its column. */
  #cutTo(text: string, look: Look, widthPt: number): string {
    if (this.#width(text, look) <= widthPt) return text;
    const letters = [...text.replace(/ …$/, "")];
    while (letters.length > 1 && this.#width(`${letters.join("")}…`, look) > widthPt) letters.pop();
    return `${letters.join("").trimEnd()}…`;
  }

  #width(text: string, look: Look): number {
    return runsOf(text, look.face).reduce((sum, run) => sum + this.#runWidth(run, look), 0);
  }

  #line(text: string, look: Look, xPt: number, yPt: number): void {
    let atPt = xPt;
    for (const run of runsOf(text, look.face)) {
      const widthPt = this.#runWidth(run, look);
      this.#use(run.font, look.sizePt).fillColor(look.colour ?? "#000000");
      this.doc.text(run.text, atPt, yPt, { lineBreak: false, features: figures });
      atPt += widthPt;
    }
  }

  #runWidth(run: Run, { sizePt }: Look): number {
    const key = `${run.font} ${run.text}`;
    const known = widths.get(key);
    const width = known ?? this.#use(run.font, 1).widthOfString(run.text, { features: figures });
    if (widths.size >= mostWidths) widths.clear();
    widths.set(key, width);
    return width * sizePt;
  }

  #use(font: string, sizePt: number): InstanceType<typeof PDFDocument> {
    if (!this.#known.has(font)) useFont(this.doc, font);
    this.#known.add(font);
    return this.doc.font(font).fontSize(sizePt);
  }
}

/** Widths at one point of size, the same in all documents: to lay out a text takes longer than all the rest. */
const widths = new Map<string, number>();
const mostWidths = 5_000;

/** Lining figures of one width, as on the pages (OpenType features lnum and tnum). */
const figures = ["lnum", "tnum", "kern", "liga"] as never[];
