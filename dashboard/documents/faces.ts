import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type PDFDocument from "pdfkit";
import { unwrapWoff } from "./unwrapWoff.ts";

/** Voice for sentences and names, plain and strong for the rest, as on the pages. */
export type Face = "voice" | "plain" | "strong";

type Script = "latin" | "latin-ext" | "greek" | "cyrillic" | "cyrillic-ext" | "vietnamese";

/**
 * The typefaces come in parts, one a script, as WOFF: their WOFF 2 files cannot be embedded in part.
 * Ranges: those that the packages themselves publish (@fontsource, unicode.json), the Latin one first.
 */
const ranges: readonly (readonly [Script, number, number])[] = [
  ["latin", 0x20, 0xff],
  ["latin", 0x152, 0x153],
  ["latin", 0x2000, 0x206f],
  ["latin", 0x20ac, 0x20ac],
  ["latin", 0x2122, 0x2122],
  ["latin", 0x2212, 0x2212],
  ["vietnamese", 0x1a0, 0x1a1],
  ["vietnamese", 0x1af, 0x1b0],
  ["vietnamese", 0x1ea0, 0x1ef1],
  ["latin-ext", 0x100, 0x2ba],
  ["latin-ext", 0x1e00, 0x1e9f],
  ["latin-ext", 0x1ef2, 0x1eff],
  ["latin-ext", 0x20a0, 0x20c0],
  ["greek", 0x370, 0x3ff],
  ["cyrillic", 0x400, 0x45f],
  ["cyrillic", 0x490, 0x491],
  ["cyrillic", 0x4b0, 0x4b1],
  ["cyrillic", 0x2116, 0x2116],
  ["cyrillic-ext", 0x460, 0x52f],
];

const families: Readonly<Record<Face, readonly [family: string, weight: number]>> = {
  voice: ["vollkorn", 600],
  plain: ["inter", 400],
  strong: ["inter", 600],
};

/** A piece of text in one part of a typeface. */
export type Run = { readonly text: string; readonly font: string };

/** A letter of a script that the typefaces do not have. */
const missing = "?";

/** Text cut where the script changes; letters that cannot be printed become a mark that says so. */
export function runsOf(text: string, face: Face): Run[] {
  const runs: { text: string; script: Script }[] = [];
  for (const letter of text.normalize("NFC")) {
    const known = scriptOf(letter);
    const last = runs.at(-1);
    const script = known ?? "latin";
    const shown = known === null ? missing : letter;
    if (last?.script === script) last.text += shown;
    else runs.push({ text: shown, script });
  }
  return runs.map((run) => ({ text: run.text, font: `${face} ${run.script}` }));
}

/** Makes a font known to a document when it is first used; each file is read once in a process. */
export function useFont(doc: InstanceType<typeof PDFDocument>, font: string): void {
  const [face, script] = font.split(" ") as [Face, Script];
  const [family, weight] = families[face];
  const name = `${family}-${script}-${weight}`;
  const bytes =
    files.get(name) ??
    unwrapWoff(readFileSync(find.resolve(`@fontsource/${family}/files/${name}-normal.woff`)));
  files.set(name, bytes);
  doc.registerFont(font, bytes);
}

const find = createRequire(import.meta.url);
const files = new Map<string, Buffer>();

function scriptOf(letter: string): Script | null {
  const code = letter.codePointAt(0) ?? 0;
  return ranges.find(([, from, to]) => code >= from && code <= to)?.[0] ?? null;
}
