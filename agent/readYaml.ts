import { basename } from "node:path";
import { type Document, LineCounter, isMap, isNode, isScalar, parseDocument } from "yaml";
import * as z from "zod";
import { nearestName } from "./nearestName.ts";

/** What is wrong with a configuration file, one line for each mistake. */
export class ConfigError extends Error {
  override readonly name = "ConfigError";
}

type Path = readonly PropertyKey[];

/**
 * Parses YAML text with a schema.
 *
 * Throws `ConfigError` with one line for each mistake, naming file, line, field and the value found:
 * `agent.yaml line 7, sources[1].everyMs: must be a number, got "fast"`.
 */
export function readYaml<Schema extends z.ZodType>(
  file: string,
  text: string,
  schema: Schema,
): z.infer<Schema> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false });
  const [broken] = document.errors;
  const name = basename(file);
  if (broken)
    throw new ConfigError(`${name} line ${lines.linePos(broken.pos[0]).line}: not YAML: ${broken.message}`);
  const content: unknown = document.toJS();
  const parsed = schema.safeParse(content);
  if (parsed.success) return parsed.data;
  const mistakes = parsed.error.issues.flatMap((issue) => mistakesOf(issue, schema, content));
  const said = mistakes
    .map(({ path, words }) => ({ path, words, ...lines.linePos(offsetOf(document, path)) }))
    .sort((a, b) => a.line - b.line)
    .map(({ path, words, line }) => `${name} line ${Math.max(1, line)}, ${fieldName(path)}: ${words}`);
  throw new ConfigError(said.join("\n"));
}

function mistakesOf(
  issue: z.core.$ZodIssue,
  schema: z.ZodType,
  content: unknown,
): { path: Path; words: string }[] {
  if (issue.code === "unrecognized_keys")
    return issue.keys.map((key) => {
      const near = nearestName(key, fieldsAt(schema, issue.path, content));
      const words = near === null ? "is not a known field" : `is not a known field; did you mean ${near}?`;
      return { path: [...issue.path, key], words };
    });
  return [{ path: issue.path, words: wordsOf(issue, valueAt(content, issue.path)) }];
}

function wordsOf(issue: z.core.$ZodIssue, value: unknown): string {
  if (issue.code === "custom" && typeof value === "object") return issue.message;
  if (value === null && issue.path.length === 0) return "is empty";
  const must = mustBe(issue);
  return value === undefined ? `is missing; it ${must}` : `${must}, got ${JSON.stringify(value)}`;
}

function mustBe(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return `must be ${typeWords.get(issue.expected) ?? issue.expected}`;
    case "invalid_value":
      return `must be ${oneOf(issue.values.map(String))}`;
    case "invalid_union":
      return `must be ${oneOf(unionOptions(issue))}`;
    case "too_small":
      return issue.origin === "string" ? "must not be empty" : `must be at least ${issue.minimum}`;
    case "too_big":
      return issue.origin === "string"
        ? `must be no longer than ${issue.maximum} characters`
        : `must be at most ${issue.maximum}`;
    default:
      return issue.message;
  }
}

function oneOf(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;
}

const typeWords: ReadonlyMap<string, string> = new Map([
  ["number", "a number"],
  ["int", "a whole number"],
  ["string", "text"],
  ["boolean", "true or false"],
  ["array", "a list"],
  ["object", "a group of fields"],
  ["record", "a group of fields"],
]);

function unionOptions(issue: z.core.$ZodIssueInvalidUnion): string[] {
  return "options" in issue && Array.isArray(issue.options) ? issue.options.map(String) : ["of a known kind"];
}

function valueAt(content: unknown, path: Path): unknown {
  return path.reduce<unknown>(
    (inside, key) =>
      typeof inside === "object" && inside !== null
        ? (inside as Record<PropertyKey, unknown>)[key]
        : undefined,
    content,
  );
}

/** `sources[1].everyMs`; the whole file is `(the file)`. */
function fieldName(path: Path): string {
  const name = path.map((key) => (typeof key === "number" ? `[${key}]` : `.${String(key)}`)).join("");
  return name.replace(/^\./, "") || "(the file)";
}

/** Where in the text a field stands; a missing one stands where the group it belongs to begins. */
function offsetOf(document: Document.Parsed, path: Path): number {
  for (let length = path.length; length > 0; length--) {
    const parent = document.getIn(path.slice(0, length - 1), true);
    const last = path[length - 1];
    if (isMap(parent)) {
      const key = parent.items.find((pair) => isScalar(pair.key) && pair.key.value === last)?.key;
      if (isNode(key)) return key.range?.[0] ?? 0;
    } else {
      const node = document.getIn(path.slice(0, length), true);
      if (isNode(node)) return node.range?.[0] ?? 0;
    }
  }
  return 0;
}

/** Names of the fields that a schema knows at a place of the content. */
function fieldsAt(schema: unknown, path: Path, content: unknown): string[] {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodPrefault)
    return fieldsAt(schema.unwrap(), path, content);
  if (schema instanceof z.ZodDiscriminatedUnion)
    return schema.options
      .filter((option) => option instanceof z.ZodObject && hasSameKind(option, content))
      .flatMap((option) => fieldsAt(option, path, content));
  const [first, ...rest] = path;
  const inside = first === undefined ? content : valueAt(content, [first]);
  if (schema instanceof z.ZodArray) return fieldsAt(schema.element, rest, inside);
  if (!(schema instanceof z.ZodObject)) return [];
  const shape = schema.shape as Record<string, unknown>;
  return first === undefined ? Object.keys(shape) : fieldsAt(shape[String(first)], rest, inside);
}

function hasSameKind(option: z.ZodObject, content: unknown): boolean {
  const kind: unknown = option.shape["kind"];
  return kind instanceof z.ZodLiteral && kind.value === valueAt(content, ["kind"]);
}
