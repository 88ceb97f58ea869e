import type { AlertAnswer, AlertView } from "@boothward/shared-types";
import type { Alert } from "./alert.ts";

/** What a person said to an alert, by one of its three buttons. */
export type Answered = {
  readonly answer: AlertAnswer;
  readonly by: string;
  readonly atMs: number;
  /** later: when to be asked again; null: when the next lull begins. */
  readonly untilAtMs: number | null;
};

/** The same with the page's own id of it, and the device it was said from. */
export type SaidToAlert = Answered & { readonly sayId: string; readonly device: string };

/** The alert as pages show it after that; null where it is over and seen to. */
export type AfterSaying = { readonly alert: AlertView | null } | "noSuchAlert";

/** The alert after it, and the word for its history; null where it was so already. */
export type AfterAnswer = { readonly alert: Alert; readonly step: "taken" | "later" | "done" | null };

/** Without a lull in sight and without a choice of the person's: the length of a dance or two. Our own choice. */
const laterMs = { actNow: 5 * 60_000, plan: 15 * 60_000, note: 60 * 60_000 } as const;

/** An answer that comes after its latest moment is put off by no more than this. */
const leastLaterMs = 2 * 60_000;

/**
 * "I'm on it" by a second person changes nothing: the first has it. "Later" is never put off past the latest
 * moment to act. "Done" takes the alert too, and closes one that is over; while the matter still holds, what is
 * seen at the booth decides.
 */
export function answerAlert(alert: Alert, said: Answered, lullAtMs: number | null): AfterAnswer {
  if (alert.phase === "closed") return { alert, step: words[said.answer] };
  const { by, atMs } = said;
  const taken = alert.taken ?? { by, atMs };
  switch (said.answer) {
    case "take":
      if (alert.taken !== null) return { alert, step: null };
      return { alert: { ...alert, taken, laterUntilAtMs: null }, step: "taken" };
    case "later":
      if (alert.phase === "over") return { alert, step: null };
      return { alert: { ...alert, laterUntilAtMs: untilOf(alert, said, lullAtMs) }, step: "later" };
    case "done":
      if (alert.doneAtMs !== null) return { alert, step: null };
      return { alert: { ...alert, taken, doneAtMs: atMs, laterUntilAtMs: null }, step: "done" };
  }
}

/** What is said of an alert that is history (a page kept it while it was cut off) is written down, and no more. */
const words = { take: "taken", later: "later", done: "done" } as const;

/** When "Later" is over. */
function untilOf(alert: Alert, { untilAtMs, atMs }: Answered, lullAtMs: number | null): number {
  const isLullAhead = lullAtMs !== null && lullAtMs > atMs && alert.severity !== "actNow";
  const wanted = untilAtMs ?? (isLullAhead ? lullAtMs : atMs + laterMs[alert.severity]);
  const latest = alert.byAtMs ?? (alert.severity === "actNow" ? atMs + laterMs.actNow : Infinity);
  return Math.max(Math.min(wanted, latest), atMs + leastLaterMs);
}
