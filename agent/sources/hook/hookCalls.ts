import * as z from "zod";

/**
 * What a booth program may say. Query texts and JSON are read by the same schemas, so a figure may come as a
 * number or as its digits. Each message stands after the field's name.
 */
const id = z
  .preprocess(
    (found) => (typeof found === "number" ? String(found) : found),
    z.string("must be text").trim().min(1, "must not be empty").max(60, "must have at most 60 characters"),
  )
  .optional();

function figure(least: number, most: number, isWhole: boolean) {
  const error = `must be a ${isWhole ? "whole " : ""}number from ${least} to ${most}`;
  const schema = isWhole ? z.int(error) : z.number(error);
  return z
    .preprocess(
      (found) => (typeof found === "string" && /^\d+(\.\d+)?$/.test(found) ? Number(found) : found),
      schema.min(least, error).max(most, error),
    )
    .optional();
}

const dayMs = 86_400_000;
const begunCall = z.strictObject({ sessionId: id });
const finishedCall = z.strictObject({ sessionId: id, durationMs: figure(0, dayMs, true) });
const printCall = z.strictObject({
  printId: id,
  sessionId: id,
  copies: figure(1, 1_000, true),
  /** Of one copy, in inches. */
  size: z
    .string("must be text")
    .regex(
      /^[1-9](\.\d+)?x[1-9](\.\d+)?$/i,
      "must be a size in inches such as 4x6, 2x6 or 6x8; for others give pitches",
    )
    .optional(),
  /** 4x6 lengths the whole call used, copies included. */
  pitches: figure(0, 10_000, false),
});

export type HookCall =
  | ({ readonly what: "begun" } & z.infer<typeof begunCall>)
  | ({ readonly what: "finished" } & z.infer<typeof finishedCall>)
  | ({ readonly what: "print" } & z.infer<typeof printCall>);

export type Mistake = { readonly field: string; readonly error: string };

/** The addresses that may be called. */
export const hookPaths: readonly string[] = ["/session/begun", "/session/finished", "/print"];

/** Reads the fields of a call to one of `hookPaths`, or names the first field that is wrong. */
export function readHookCall(path: string, fields: unknown): HookCall | { readonly mistake: Mistake } {
  switch (path) {
    case "/session/begun":
      return read(begunCall, fields, (call) => ({ what: "begun", ...call }));
    case "/session/finished":
      return read(finishedCall, fields, (call) => ({ what: "finished", ...call }));
    default:
      return read(printCall, fields, (call) => ({ what: "print", ...call }));
  }
}

function read<Schema extends z.ZodType>(
  schema: Schema,
  fields: unknown,
  asCall: (call: z.infer<Schema>) => HookCall,
): HookCall | { readonly mistake: Mistake } {
  const parsed = schema.safeParse(fields);
  return parsed.success ? asCall(parsed.data) : { mistake: firstMistake(parsed.error, schema, fields) };
}

function firstMistake(error: z.ZodError, schema: z.ZodType, fields: unknown): Mistake {
  const [issue] = error.issues;
  if (issue?.code === "unrecognized_keys") {
    const [field = ""] = issue.keys;
    const known = schema instanceof z.ZodObject ? Object.keys(schema.shape).join(", ") : "";
    return { field, error: `${field} is not known here; known are ${known}` };
  }
  const field = String(issue?.path[0] ?? "");
  if (field === "") return { field: "(the body)", error: "the body must be one JSON object" };
  const found: unknown = (fields as Record<string, unknown>)[field];
  return { field, error: `${field} ${issue?.message}, got ${JSON.stringify(found).slice(0, 80)}` };
}
