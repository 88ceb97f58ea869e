import type { AlertStory, NoticeSettingsView, ReachView } from "@boothward/shared-types";
import type { AlertView, BoothView } from "@boothward/shared-types/view";

type Pass = {
  passId: string;
  name: string;
  bookingIds: readonly string[];
  endsAtMs: number;
  devices: { device: string; createdAtMs: number }[];
};

/** What a stub says of alerts and of people; a test changes it at any time. */
export type PeopleState = {
  stories: readonly AlertStory[];
  passes: readonly Pass[];
  reaches: readonly ReachView[];
  noticeSettings: NoticeSettingsView;
  /** Ids of what pages said to alerts, each once. */
  sayIds: readonly string[];
};

export function noPeople(): PeopleState {
  return {
    ...{ stories: [], passes: [], reaches: [], sayIds: [] },
    noticeSettings: {
      ...{ escalateAfterMin: { actNow: 3, plan: 15 }, repeatAfterMin: 10, units: "metric", rulesOff: [] },
      ...{ mail: null, ping: null, quietHours: null, hasMailPassword: false },
    },
  };
}

type State = PeopleState & { nowMs: number; booths: readonly BoothView[] };

/** The answers about alerts, passes, ways to be reached and notices; null: the address is about none of them. */
export function answerPeople(
  state: State,
  name: string,
  method: string,
  address: string,
  body: unknown,
): unknown {
  const said = /^\/api\/alerts\/([^/]+)\/say$/.exec(address);
  if (said !== null) return answerSaid(state, name, said[1] ?? "", body as Said);
  if (address.startsWith("/api/passes")) return answerPasses(state, method, body);
  if (address.startsWith("/api/reaches")) return answerReaches(state, method, address, body);
  if (address === "/api/settings/notices" && method === "PUT") {
    state.noticeSettings = { ...state.noticeSettings, ...(body as NoticeSettingsView) };
    return {};
  }
  const arrivedAtMs = state.nowMs + 2000;
  const taken = { way: "push", state: "taken", lastSaid: null, takenAtMs: state.nowMs };
  const plain: Record<string, unknown> = {
    "/api/alerts": { alerts: state.stories },
    "/api/settings/notices": state.noticeSettings,
    "/api/abilities": { origin: null, isPublic: "unknown" },
    "/api/reach-key": {
      publicKey: "BNbxSFWwhHnQVZAUZRw_-WYFJQ9V3Ra0IxnBCQq5oSGxzBQMZxcwsiQ2R7CsYVvoF6a_0SzBWLn2m2Cq2zBZ1uM",
    },
    "/api/test-alert": { noticeId: "test-1" },
    "/api/test-alert/test-1": { deliveries: [{ ...taken, label: "Android phone", arrivedAtMs }] },
  };
  return plain[address] ?? null;
}

type Said = { answer: "take" | "later" | "done"; sayId: string };

/** As the dashboard does: what is said twice counts once. */
function answerSaid(state: State, by: string, alertId: string, { answer, sayId }: Said): unknown {
  const found = state.booths.flatMap(({ alerts }) => alerts).find((alert) => alert.alertId === alertId);
  if (found === undefined) return { alert: null };
  const isNew = !state.sayIds.includes(sayId);
  const alert = isNew ? afterSaid(found, answer, by, state.nowMs) : found;
  if (isNew) state.sayIds = [...state.sayIds, sayId];
  state.booths = state.booths.map((booth) => ({
    ...booth,
    alerts: booth.alerts.map((each) => (each === found ? alert : each)),
  }));
  return { alert };
}

function afterSaid(alert: AlertView, answer: Said["answer"], by: string, atMs: number): AlertView {
  const taken = alert.taken ?? { by, atMs };
  switch (answer) {
    case "take":
      return { ...alert, taken, state: "acknowledged" };
    case "later":
      return { ...alert, laterUntilAtMs: atMs + 10 * 60_000, state: "shelved" };
    case "done":
      return { ...alert, taken, doneAtMs: atMs, state: "acknowledged" };
  }
}

function answerPasses(state: State, method: string, body: unknown): unknown {
  if (method === "GET") return { passes: state.passes };
  if (method === "DELETE") {
    state.passes = [];
    return {};
  }
  const { name, bookingIds } = body as Pick<Pass, "name" | "bookingIds">;
  const pass = {
    passId: `pass-${state.passes.length}`,
    name,
    bookingIds,
    endsAtMs: state.nowMs + 9 * 3_600_000,
  };
  state.passes = [{ ...pass, devices: [] }, ...state.passes];
  const path = "/join#pass=Zk3vQ8wT1nB5xR7yL2mC4pD6sF9gH0jA";
  return { passId: pass.passId, path, endsAtMs: pass.endsAtMs };
}

function answerReaches(state: State, method: string, address: string, body: unknown): unknown {
  if (method === "GET") return { reaches: state.reaches };
  if (method === "DELETE") {
    state.reaches = state.reaches.filter(({ reachId }) => !address.endsWith(reachId));
    return {};
  }
  const { way, label } = body as Pick<ReachView, "way" | "label">;
  const reachId = `reach-${state.reaches.length}`;
  const fresh = { createdAtMs: state.nowMs, lastTakenAtMs: null, troubleFromAtMs: null, lastSaid: null };
  state.reaches = [...state.reaches, { reachId, way, label, to: "example.org", ...fresh }];
  return way === "webhook" ? { reachId, secret: "whsec-9QdK2" } : { reachId };
}
