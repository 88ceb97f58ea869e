import type { QuietHours } from "@boothward/shared-types";
import { floodFromAtMs, isFirstNow } from "../alerts/flood.ts";
import type { Arrival, DueNotice, NewDelivery } from "../store/notices.ts";
import type { Store } from "../store/openStore.ts";
import type { Person, Reach } from "../store/reaches.ts";
import { giveUpAfterMs } from "./backOff.ts";
import { isOver } from "./isOver.ts";
import { newDelivery } from "./newDelivery.ts";
import { quietOf, quietUntil } from "./quietOf.ts";

export type SpreadWorld = {
  readonly store: Pick<Store, "notices" | "reaches" | "settings">;
  readonly arrivalKey: string;
  readonly makeId: () => string;
};

/** So many are spread in one transaction. */
export const mostAtOnce = 100;
/** A flood's first digest waits so long for what comes with it; the others come at most so often. */
const firstDigestMs = 20_000;
const digestEveryMs = 5 * 60_000;
/** What came longer ago tells nothing of whether a flood lasts: an evening's worth. */
const floodMemoryMs = 6 * 3_600_000;

/**
 * Makes the deliveries of the notices that are due, one for each living way of each person: to be sent now, or
 * gathered where the person is flooded or has quiet hours. Gives how many notices it took.
 */
export async function spreadDue(world: SpreadWorld, atMs: number): Promise<number> {
  const due = await world.store.notices.dueToSpread(atMs, mostAtOnce);
  if (due.length === 0) return 0;
  const people = new Map<string, PersonNow>();
  const deliveries: NewDelivery[] = [];
  const spreads: Parameters<Store["notices"]["spread"]>[0][number][] = [];
  for (const notice of due) {
    const ended = whyNotSpread(notice, atMs);
    spreads.push({ noticeId: notice.noticeId, ended });
    if (ended === null) deliveries.push(...(await deliveriesOf(world, notice, people, atMs)));
  }
  await world.store.notices.spread(spreads, deliveries, atMs);
  return due.length;
}

function whyNotSpread(notice: DueNotice, atMs: number): "over" | "expired" | null {
  if (isOver(notice, notice.alert)) return "over";
  return atMs - notice.dueAtMs > giveUpAfterMs[notice.severity] ? "expired" : null;
}

/** A person as this round of spreading knows them. */
type PersonNow = {
  readonly quiet: QuietHours | null;
  readonly arrivals: Arrival[];
  lastDigestAtMs: number | null;
};

async function deliveriesOf(
  world: SpreadWorld,
  notice: DueNotice,
  people: Map<string, PersonNow>,
  atMs: number,
): Promise<NewDelivery[]> {
  const deliveries: NewDelivery[] = [];
  for (const [person, reaches] of byPerson(await reachesFor(world, notice, atMs))) {
    const now = people.get(person.personId) ?? (await personNow(world, person, atMs));
    people.set(person.personId, now);
    const holdUntilAtMs = notice.why === "test" ? null : whenGathered(notice, now, atMs);
    const state = holdUntilAtMs === null ? "waiting" : "gathered";
    const its = { noticeId: notice.noticeId, state, nextTryAtMs: holdUntilAtMs ?? atMs } as const;
    deliveries.push(...reaches.map(({ reachId }) => newDelivery(world, { ...its, reachId })));
    if (notice.why !== "test") now.arrivals.push({ ...notice, atMs });
  }
  return deliveries;
}

/** What the dashboard says of a way that fails goes by the ways that work, where there are any. */
async function reachesFor({ store }: SpreadWorld, notice: DueNotice, atMs: number): Promise<Reach[]> {
  const all = await store.reaches.ofAddressed(notice, atMs);
  if (notice.why !== "own") return all;
  const working = all.filter(({ troubleFromAtMs }) => troubleFromAtMs === null);
  return working.length > 0 ? working : all;
}

function byPerson(reaches: readonly Reach[]): [Person, Reach[]][] {
  const ids = [...new Set(reaches.map(({ person }) => person.personId))];
  return ids.flatMap((personId) => {
    const own = reaches.filter(({ person }) => person.personId === personId);
    return own[0] === undefined ? [] : [[own[0].person, own] as [Person, Reach[]]];
  });
}

async function personNow({ store }: SpreadWorld, person: Person, atMs: number): Promise<PersonNow> {
  const quiet = await quietOf(store.settings, person);
  const arrivals = await store.notices.arrivalsOf(person, atMs - floodMemoryMs);
  return {
    quiet,
    // What quiet hours held back flooded nobody.
    arrivals: arrivals.filter((arrival) => quietUntil(arrival, quiet, arrival.atMs) === null),
    lastDigestAtMs: await store.notices.lastDigestAtMs(person.personId),
  };
}

/** Until when a notice is gathered for a person; null: it is sent by itself. */
function whenGathered(notice: DueNotice, { quiet, arrivals, lastDigestAtMs }: PersonNow, atMs: number) {
  const until = quietUntil(notice, quiet, atMs);
  if (until !== null) return until;
  const floodedFromAtMs = floodFromAtMs([...arrivals, { atMs }], atMs);
  if (floodedFromAtMs === null || isFirstNow(notice, arrivals, floodedFromAtMs)) return null;
  return Math.max(atMs + firstDigestMs, (lastDigestAtMs ?? -Infinity) + digestEveryMs);
}
