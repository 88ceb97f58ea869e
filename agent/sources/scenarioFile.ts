import { type NewItem, knownItem } from "@boothward/shared-types";
import * as z from "zod";

/** Something a source would have seen, so long after the scenario's beginning. */
export type ScenarioItem = {
  readonly line: number;
  readonly atMs: number;
  readonly item: NewItem;
  readonly source: string;
};
/** The venue's network is away for this long. */
export type ScenarioHold = { readonly line: number; readonly atMs: number; readonly holdMs: number };

/** An invented event day for one booth. */
export type Scenario = {
  readonly name: string;
  readonly lengthMs: number;
  readonly entries: readonly (ScenarioItem | ScenarioHold)[];
};

/** The first mistake in a scenario. */
export class ScenarioError extends Error {
  override readonly name = "ScenarioError";
}

const headerLine = z.strictObject({ scenario: z.string().min(1).max(200), lengthMs: z.number().min(0) });
const itemLine = z.strictObject({ atMs: z.number().min(0), item: z.looseObject({ kind: z.string() }) });
const holdLine = z.strictObject({ atMs: z.number().min(0), holdLink: z.number().min(0) });

/**
 * Reads a scenario: a header line, then items and holds in the order of their times, one JSON object a line.
 *
 * A session or a print without an id gets one made of the scenario's name and the line, the same at every
 * reading. Throws `ScenarioError`, which names the file, the line and the field of the first mistake.
 */
export function readScenario(file: string, text: string): Scenario {
  const lines = text.split("\n").map((words, index) => ({ words: words.trim(), line: index + 1 }));
  const [first, ...rest] = lines.filter(({ words }) => words !== "");
  if (!first)
    throw new ScenarioError(`${file}: is empty; its first line must be {"scenario": NAME, "lengthMs": MS}`);
  const { scenario: name, lengthMs } = parseWith(headerLine, parseJson(first.words, file, first.line), {
    file,
    line: first.line,
  });
  const entries = rest.map(({ words, line }) => readEntry(words, { file, line }, name));
  entries.forEach((entry, index) => {
    const before = entries[index - 1];
    if (before && before.atMs > entry.atMs)
      throw new ScenarioError(`${file} line ${entry.line}: atMs ${entry.atMs} is before the line above it`);
  });
  return { name, lengthMs, entries };
}

type Place = { readonly file: string; readonly line: number };

function readEntry(words: string, place: Place, name: string): ScenarioItem | ScenarioHold {
  const { line } = place;
  const json = parseJson(words, place.file, line);
  if (typeof json === "object" && json !== null && "holdLink" in json) {
    const { atMs, holdLink } = parseWith(holdLine, json, place);
    return { line, atMs, holdMs: holdLink };
  }
  const { atMs, item } = parseWith(itemLine, json, place);
  const stamp = { source: "scenario", ...madeId(item.kind, `${name}-${line}`), ...item };
  const parsed = parseWith(knownItem, { ...stamp, seq: 1, atMs, monoMs: atMs }, place, "item.");
  return { line, atMs, item: withoutStamp(parsed), source: parsed.source };
}

function madeId(kind: string, id: string): Record<string, string> {
  if (kind === "session") return { sessionId: id.slice(-80) };
  return kind === "print" ? { printId: id.slice(-120) } : {};
}

function withoutStamp(parsed: z.infer<typeof knownItem>): NewItem {
  const stampKeys: ReadonlySet<string> = new Set(["seq", "atMs", "monoMs", "source"]);
  const fields = Object.entries(parsed).filter(([key]) => !stampKeys.has(key));
  return Object.fromEntries(fields) as NewItem;
}

function parseJson(words: string, file: string, line: number): unknown {
  try {
    return JSON.parse(words);
  } catch {
    throw new ScenarioError(`${file} line ${line}: is not JSON`);
  }
}

function parseWith<Schema extends z.ZodType>(
  schema: Schema,
  json: unknown,
  { file, line }: Place,
  before = "",
): z.infer<Schema> {
  const parsed = schema.safeParse(json);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  const field = issue?.path.join(".");
  throw new ScenarioError(`${file} line ${line}, ${before}${field}: ${issue?.message}`);
}
