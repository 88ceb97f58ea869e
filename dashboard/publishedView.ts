import type { BoothView } from "@boothward/shared-types";

/** Figures that only drift with time are sent this often; a page counts on between by itself. */
const driftEveryMs = 10_000;

/** The last view of a booth that went out, and when. */
export type Published = { readonly steady: string; readonly whole: string; readonly atMs: number };

/**
 * What to remember when the view is to be sent, null when it is not: something changed that a person reads,
 * or what drifts (forecast, latest moments, the age of the last word) has drifted for a while.
 */
export function nextPublished(before: Published | null, view: BoothView, atMs: number): Published | null {
  const steady = JSON.stringify(steadyPart(view));
  if (before?.steady !== steady) return { steady, whole: wholeOf(view), atMs };
  if (atMs - before.atMs < driftEveryMs) return null;
  const whole = wholeOf(view);
  return whole === before.whole ? null : { steady, whole, atMs };
}

/** Everything but the moment at which it was looked ahead: that alone says nothing new. */
function wholeOf(view: BoothView): string {
  const { media, heat, sun, printer } = view.outlook;
  return JSON.stringify({ ...view, outlook: { media, heat, sun, printer } });
}

function steadyPart({ outlook, heardAtMs, alerts, ...rest }: BoothView) {
  const steadyAlerts = alerts.map((alert) => ({
    ...alert,
    byAtMs: null,
    emptyAtMs: null,
    rollsNeeded: null,
    crossChance60: null,
  }));
  const { media, sun } = outlook;
  return { ...rest, alerts: steadyAlerts, hasOutlook: media !== null, sun, isHeard: heardAtMs !== null };
}
