import * as z from "zod";

/** An instant with its offset, as the text that was given and as Unix ms. */
export type Instant = { readonly text: string; readonly atMs: number };

const instantText = z.union(
  [z.iso.datetime({ offset: true }), z.iso.datetime({ offset: true, precision: -1 })],
  { error: "must be an ISO instant with its offset, as 2026-10-24T20:00:00+02:00" },
);
const instant = instantText.transform((text): Instant => ({ text, atMs: Date.parse(text) }));

const amount = z.number().min(0);
const maybeAmount = amount.nullish().transform((given) => given ?? null);
const maybeWord = z
  .string()
  .nullish()
  .transform((given) => given ?? null);

const pastLine = z.object({
  kind: z.literal("past"),
  pattern: maybeWord,
  start: instant,
  end: instant,
  guests: maybeAmount,
  sessions: amount,
  sheets: amount,
  /** Sheets of each quarter-hour from the start on. */
  bins15: z.array(amount),
});

const planLine = z.object({
  kind: z.literal("plan"),
  start: instant,
  end: instant,
  guests: maybeAmount,
  pattern: maybeWord,
  sheetsLoaded: amount,
  sheetsPerSession: maybeAmount,
});

const endsLater = { path: ["end"], error: "must be after start" };
const past = pastLine.refine(({ start, end }) => end.atMs > start.atMs, endsLater);
const plan = planLine.refine(({ start, end }) => end.atMs > start.atMs, endsLater);

const stop = z
  .object({ kind: z.literal("stop"), from: instant, to: instant })
  .refine(({ from, to }) => to.atMs >= from.atMs, { path: ["to"], error: "must not be before from" });

const lineSchemas = {
  past,
  plan,
  session: z.object({ kind: z.literal("session"), at: instant, sheets: amount }),
  ask: z.object({ kind: z.literal("ask"), at: instant }),
  stop,
  roll: z.object({ kind: z.literal("roll"), at: instant, sheets: amount }),
  correct: z.object({ kind: z.literal("correct"), at: instant, sheetsLeft: amount }),
};

/** One line of an evening that is played again. */
export type ReplayLine = z.infer<(typeof lineSchemas)[keyof typeof lineSchemas]>;

/** A line, or the kind that nobody knows, or a sentence that says which field is wrong. */
export type ReadLine =
  | { readonly line: ReplayLine }
  | { readonly unknownKind: string }
  /** `isPlan`: what follows belongs to an evening that is not known. */
  | { readonly fault: string; readonly isPlan: boolean };

const kinded = z.object({ kind: z.string() });

/** Reads one line of NDJSON. */
export function readReplayLine(text: string): ReadLine {
  const json = parseJson(text);
  if ("fault" in json) return { ...json, isPlan: false };
  const head = kinded.safeParse(json.value);
  if (!head.success) return { fault: faultOf(head.error, json.value), isPlan: false };
  const { kind } = head.data;
  if (!isKnown(kind)) return { unknownKind: kind };
  const read = lineSchemas[kind].safeParse(json.value);
  if (read.success) return { line: read.data };
  return { fault: faultOf(read.error, json.value), isPlan: kind === "plan" };
}

function isKnown(kind: string): kind is keyof typeof lineSchemas {
  return Object.hasOwn(lineSchemas, kind);
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
