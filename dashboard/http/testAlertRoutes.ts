import * as z from "zod";
import type { ArrivedDelivery } from "../store/deliveries.ts";
import { secretHash } from "../store/secretHash.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { personIdOf, type Signed } from "./roles.ts";
import { openRoute, signedRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** One finger taps a button so often in a minute; more is a script. */
const mostTestsPerMinute = 6;
/** An owner's phone that hears a test the day before is good for the evening. */
const aheadMs = 24 * 3_600_000;

const testText = "A test alert: this is how Boothward will reach you.";
const tooManyTests = no(429, "tooManyTests", "That was many tests at once. Wait a minute, then try again.");
const noSuchTest = no(404, "noSuchTest", "There is no such test of yours.");
const noSuchArrival = no(403, "noSuchArrival", "There is no such alert, or this is not its device.");

const arrivalBody = z.object({ deliveryId: z.string().min(1).max(80), secret: z.string().min(1).max(80) });

/** Trying out that alerts arrive, by the whole real way; and how devices say that one did. */
export function testAlertRoutes({ store, makeId, notifier, onFacts }: HttpSurroundings): Route[] {
  async function begin({ signed, atMs }: Asked<Signed>): Promise<Answer> {
    const personId = personIdOf(signed);
    const lately = await store.notices.countFor(personId, "test", atMs - 60_000);
    if (lately >= mostTestsPerMinute) return tooManyTests;
    const noticeId = makeId();
    await store.notices.add([
      {
        ...{ noticeId, onceKey: `test:${noticeId}`, why: "test", severity: "note", text: testText },
        ...{ alertId: null, boothId: null, bookingId: null, toRole: signed.role, toPersonId: personId },
        ...{ createdAtMs: atMs, dueAtMs: atMs },
      },
    ]);
    notifier.wake();
    return { status: 201, body: { noticeId } };
  }

  async function look({ params, signed }: Asked<Signed>): Promise<Answer> {
    const notice = await store.notices.byId(params["noticeId"] ?? "");
    if (notice?.why !== "test" || notice.toPersonId !== personIdOf(signed)) return noSuchTest;
    const lines = await store.notices.ofNotice(notice.noticeId);
    const deliveries = lines
      .filter(({ deliveryId }) => deliveryId !== null)
      .map(({ deliveryId, way, label, state, lastSaid, takenAtMs, arrivedAtMs }) => ({
        ...{ deliveryId, way, label, state, lastSaid, takenAtMs, arrivedAtMs },
      }));
    return { status: 200, body: { noticeId: notice.noticeId, ended: notice.ended, deliveries } };
  }

  async function arrive({ body, atMs }: Asked): Promise<Answer> {
    const read = readBody(arrivalBody, body);
    if ("refusal" in read) return read.refusal;
    const { deliveryId, secret } = read.value;
    const arrived = await store.deliveries.saveArrival(deliveryId, secretHash(secret), atMs);
    if (arrived === null) return noSuchArrival;
    if (arrived.notice.why === "test" && arrived.isFirst) await stateHeard(arrived, atMs);
    return { status: 200, body: {} };
  }

  /** A fact of each booth that the person answers for: that this person hears its alerts. */
  async function stateHeard({ reach: { person, way } }: ArrivedDelivery, atMs: number): Promise<void> {
    const { role, personId, name: by } = person;
    const boothIds = role === "owner" ? await boothsSoon(atMs) : await store.passes.boothsOf(personId);
    for (const boothId of boothIds) {
      const fact = { kind: "testHeard" as const, role, way, by };
      const stored = await store.boothItems.addAtDashboard(boothId, fact, { atMs, saidAtMs: atMs });
      onFacts(boothId, [stored]);
    }
  }

  async function boothsSoon(atMs: number): Promise<string[]> {
    const bookings = await store.bookings.all();
    const soon = bookings.filter(({ openAtMs, closeAtMs }) => openAtMs <= atMs + aheadMs && atMs < closeAtMs);
    return [...new Set(soon.map(({ boothId }) => boothId))];
  }

  return [
    signedRoute("post", "/api/test-alert", "tryAlert", begin),
    signedRoute("get", "/api/test-alert/:noticeId", "tryAlert", look),
    openRoute("post", "/api/arrivals", true, arrive),
  ];
}
