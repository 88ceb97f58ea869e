import * as z from "zod";

/** An instant with its offset, as the text that was given and as Unix ms. */
export type Instant = { readonly text: string; readonly atMs: number };

const instantText = z.union(
  [z.iso.datetime({ offset: true }), z.iso.datetime({ offset: true, precision: -1 })],
  { error: "must be an ISO instant with its offset, as 2026-10-24T20:00:00+02:00" },
);
export const instant = instantText.transform((text): Instant => ({ text, atMs: Date.parse(text) }));

/** A line, or the kind that nobody knows, or a sentence that says which field is wrong. */
export type ReadLine<Line> =
  | { readonly line: Line }
  | { readonly unknownKind: string }
  /** `opens`: what follows belongs to something that is not known. */
  | { readonly fault: string; readonly opens: boolean };

const kinded = z.object({ kind: z.string() });

/** Reads one line of NDJSON by the schema of its kind. `opening` is the kind with which all begins. */
export function readLine<Line>(
  text: string,
  schemas: Readonly<Record<string, z.ZodType<Line>>>,
  opening: string,
): ReadLine<Line> {
  const json = parseJson(text);
  if ("fault" in json) return { ...json, opens: false };
  const head = kinded.safeParse(json.value);
  if (!head.success) return { fault: faultOf(head.error, json.value), opens: false };
  const { kind } = head.data;
  const schema = Object.hasOwn(schemas, kind) ? schemas[kind] : undefined;
  if (schema === undefined) return { unknownKind: kind };
  const read = schema.safeParse(json.value);
  if (read.success) return { line: read.data };
  return { fault: faultOf(read.error, json.value), opens: kind === opening };
}

function parseJson(text: string): { value: unknown } | { fault: string } {
  try {
    return { value: JSON.parse(text) as unknown };
  } catch {
    return { fault: `not JSON: ${text.length > 60 ? `${text.slice(0, 60)}...` : text}` };
  }
}

function faultOf(error: z.ZodError, value: unknown): string {
  const [issue] = error.issues;
  const path = issue?.path ?? [];
  if (path.length === 0) return `must be an object with a "kind", is ${JSON.stringify(value)}`;
  const given = path.reduce<unknown>(
    (within, key) => (typeof within === "object" && within !== null ? Reflect.get(within, key) : undefined),
    value,
  );
  return `field "${path.join(".")}" is ${given === undefined ? "missing" : JSON.stringify(given)}: ${issue?.message ?? "wrong"}`;
}
