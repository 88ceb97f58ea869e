import * as z from "zod";
import { instant, readLine, type ReadLine } from "./lineReader.ts";

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

/** Reads one line of NDJSON. */
export function readReplayLine(text: string): ReadLine<ReplayLine> {
  return readLine<ReplayLine>(text, lineSchemas, "plan");
}
