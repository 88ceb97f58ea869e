import type { Scene } from "../../dashboard/alerts/scene.ts";
import { newForEvents, trustOf } from "../../dashboard/alerts/trust.ts";
import { boothView } from "../../dashboard/booth/boothView.ts";
import { tallyOf } from "../../dashboard/booth/tally.ts";
import { outlookOf } from "../../dashboard/forecast/index.ts";
import { aBookedTime } from "./aBooking.ts";
import { aBooth, stateOf } from "./aBooth.ts";
import { hourMs, minuteMs, sixAtMs, type StoryLine } from "./aStoredItem.ts";

/** What a scene is made from; the rest follows from it, unless a test says otherwise. */
export type SceneParts = Partial<Omit<Scene, "shown">> & {
  readonly shown?: Omit<Scene["shown"], "clockOffMs"> & Partial<Scene["shown"]>;
};

/** Everybody can be told, the clocks are right, forecasts have earned their trust. */
const trusted = {
  ...{ reach: { hasOwner: true, hasAttendant: true }, clockDoubtfulAtMs: null },
  trust: trustOf(newForEvents, {}),
};

/** A booth open from 18:00 to 23:00 at some minute after 18:00, heard just now. */
export function aScene(minute: number, lines: readonly StoryLine[], over: SceneParts = {}): Scene {
  const atMs = sixAtMs + minute * minuteMs;
  const made = { state: stateOf(lines), booking: aBookedTime(), settings: aBooth(), heardAtMs: atMs, atMs };
  const known = { ...made, ...trusted, listeningFromAtMs: sixAtMs - 10 * hourMs, ...over };
  const outlook =
    over.outlook ?? outlookOf(known.state, known.booking, known.settings, atMs, [], null).outlook;
  return { ...known, outlook, shown: { ...shownOf({ ...known, outlook }), ...over.shown } };
}

function shownOf({
  state,
  outlook,
  booking,
  settings,
  heardAtMs,
  atMs,
}: Omit<Scene, "shown" | keyof typeof trusted>): Scene["shown"] {
  return boothView({
    ...{ state, outlook, booking, heardAtMs, atMs, booth: settings },
    counts: tallyOf(state, windowOf(booking), atMs),
    ...{ isLinked: true, clockOffMs: null, keptAside: 0, sunsetAtMs: null, alerts: [], health: "unknown" },
  });
}

function windowOf(booking: Scene["booking"]) {
  const { fromAtMs, toAtMs } = booking ?? { fromAtMs: -Infinity, toAtMs: Infinity };
  return { booking, fromAtMs, toAtMs };
}
