import { effect } from "@preact/signals";
import { v7 } from "uuid";
import type { BoothView } from "@boothward/shared-types/view";
import { answeredAlert } from "../state/alertShapes.ts";
import type { Page } from "../state/pageContext.ts";
import { booths, nowMs, upAtMs } from "../state/signals.ts";
import { openAnswerQueue } from "./answerQueue.ts";
import type { AnswerQueue, Said, Sent } from "./answerQueue.ts";

const queues = new WeakMap<Page, AnswerQueue>();

/** The one queue of presses of this page: sends at once, when the dashboard is reached again, and now and then. */
export function queueOf(page: Page): AnswerQueue {
  const known = queues.get(page);
  if (known !== undefined) return known;
  const queue = openAnswerQueue({
    kept: window.localStorage,
    send: (said) => sendAnswer(page, said),
    newId: () => v7(),
  });
  queues.set(page, queue);
  effect(() => {
    if (upAtMs.value !== null && queue.waiting.peek().length > 0) void queue.flush(nowMs.peek());
  });
  return queue;
}

/** What another try may mend: no network, a portal's page in between, a sign-in that is over, a dashboard in trouble. */
const passing: ReadonlySet<string> = new Set([
  "unreachable",
  "unreadable",
  "notSignedIn",
  "failed",
  "tooManyTries",
]);

async function sendAnswer(page: Page, { alertId, ...said }: Said): Promise<Sent> {
  const address = `/api/alerts/${encodeURIComponent(alertId)}/say`;
  const came = await page.call("POST", address, answeredAlert, said);
  if ("refusal" in came) return passing.has(came.refusal.error) ? "later" : came;
  booths.value = withAnswered(booths.value, alertId, came.value.alert);
  return "taken";
}

/** The booths with the alert as the dashboard has it after the answer, ahead of the next frame. */
function withAnswered(
  all: readonly BoothView[],
  alertId: string,
  answered: BoothView["alerts"][number] | null,
): readonly BoothView[] {
  const isIts = (alert: BoothView["alerts"][number]) => alert.alertId === alertId;
  return all.map((booth) =>
    booth.alerts.some(isIts)
      ? { ...booth, alerts: booth.alerts.flatMap((alert) => (isIts(alert) ? (answered ?? []) : alert)) }
      : booth,
  );
}
