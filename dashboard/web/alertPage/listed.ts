import type { AlertStory } from "@boothward/shared-types/alertStory";
import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { byUrgency } from "../state/boothLook.ts";

/** An alert on the page of all, with its story as far as that came. */
export type Listed = {
  alert: AlertView;
  boothName: string;
  booth: BoothView | null;
  story: Pick<AlertStory, "log" | "told">;
};

/** All alerts by where they stand: to be seen to, silenced, over without anybody, closed. */
export type Alerts = {
  open: Listed[];
  untaken: Listed[];
  silenced: Listed[];
  closed: (Listed & { closedAtMs: number })[];
};

/**
 * What is open comes from the live booths, its story and what is closed from the list that is asked for now and
 * then: an alert that is new stands there at once, its story follows.
 */
export function listAlerts(booths: readonly BoothView[], stories: readonly AlertStory[]): Alerts {
  const storyOf = (alertId: string) => stories.find(({ alert }) => alert.alertId === alertId);
  const live = byUrgency(booths.flatMap(({ alerts }) => alerts)).map((alert): Listed => {
    const booth = booths.find(({ boothId }) => boothId === alert.boothId) ?? null;
    const story = storyOf(alert.alertId) ?? { log: [], told: [] };
    return { alert, booth, boothName: booth?.name ?? "", story };
  });
  const isLive = (alertId: string) => live.some(({ alert }) => alert.alertId === alertId);
  const inState = (...states: AlertView["state"][]) =>
    live.filter(({ alert }) => states.includes(alert.state));
  return {
    open: inState("unacknowledged", "acknowledged", "shelved"),
    untaken: inState("returnedUnacknowledged"),
    silenced: inState("suppressed", "outOfService"),
    closed: stories.flatMap((story) => {
      const { alert, boothName, closedAtMs } = story;
      if (closedAtMs === null || isLive(alert.alertId)) return [];
      const booth = booths.find(({ boothId }) => boothId === alert.boothId) ?? null;
      return [{ alert, boothName, booth, story, closedAtMs }];
    }),
  };
}

/** Changes when the list should be asked for again. */
export function storyKey(booths: readonly BoothView[]): string {
  return booths
    .flatMap(({ alerts }) => alerts)
    .map(({ alertId, state, severity, laterUntilAtMs, doneAtMs }) =>
      [alertId, state, severity, laterUntilAtMs, doneAtMs].join(),
    )
    .join(" ");
}
