import type { DashboardFact, PersonKind } from "../store/boothItems.ts";
import { no, noSuchBooth, readBody, type Answer } from "./answer.ts";
import { factBody, type FactBody } from "./factBody.ts";
import { hasBooth, type Signed } from "./roles.ts";
import { signedRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** Nobody remembers to the minute what was longer ago, and counts of then have been acted on. */
const mostAgoMs = 6 * 3_600_000;
/** A browser's clock may be a little ahead of ours. */
const aheadMs = 5_000;
/** The longest open hours of a booking, as its form allows them. */
const mostOpenMs = 48 * 3_600_000;

/** What people say can be taken back, a taking back too; what a source saw cannot. */
const takenBackKinds: ReadonlySet<string> = new Set<PersonKind>([
  ...(["rollFitted", "rollTakenOff", "rollDenied", "correction", "waste"] as const),
  ...(["authority", "readiness", "extended", "takenBack"] as const),
]);

/** Facts that a person states of a booth: in that person's name, kept for ever, undone by another fact. */
export function factRoutes(with_: HttpSurroundings): Route[] {
  const { store } = with_;

  async function state({ params, body, signed, atMs: nowMs }: Asked<Signed>): Promise<Answer> {
    const booth = await store.booths.byId(params["boothId"] ?? "");
    if (booth === null || !hasBooth(signed, booth.boothId)) return noSuchBooth;
    const read = readBody(factBody, body);
    if ("refusal" in read) return read.refusal;
    const refusal = wrongTime(read.value, nowMs) ?? (await wrongName(booth.boothId, read.value));
    if (refusal !== null) return refusal;
    const said = { atMs: Math.min(atMsOf(read.value) ?? nowMs, nowMs), saidAtMs: nowMs };
    const stored = await store.boothItems.addAtDashboard(
      booth.boothId,
      factOf(read.value, signed.name),
      said,
    );
    with_.onFacts(booth.boothId, [stored]);
    const { bootId, seq, atMs } = stored;
    return { status: 201, body: { bootId, seq, atMs } };
  }

  /** What the fact speaks of must be this booth's. */
  async function wrongName(boothId: string, said: FactBody): Promise<Answer | null> {
    if (said.kind === "extended") return wrongExtension(boothId, said);
    if (said.kind !== "takenBack") return null;
    const kind = await store.boothItems.kindOf(boothId, said);
    const named = `seq: ${said.seq} of ${said.bootId}`;
    if (kind === null) return no(404, "noSuchFact", `${named} is no fact of this booth.`, "seq");
    if (takenBackKinds.has(kind)) return null;
    return no(409, "notTakenBack", `${named} is no word of a person that could be taken back.`, "seq");
  }

  async function wrongExtension(
    boothId: string,
    { bookingId, closeAtMs }: Extract<FactBody, { kind: "extended" }>,
  ): Promise<Answer | null> {
    const booking = await store.bookings.byId(bookingId);
    if (booking?.boothId !== boothId)
      return wrongField("bookingId", `this booth has no booking ${bookingId}`);
    const openMs = closeAtMs - booking.openAtMs;
    if (openMs <= 0) return wrongField("closeAtMs", `${closeAtMs} is not after the opening`);
    return openMs > mostOpenMs
      ? wrongField("closeAtMs", `${closeAtMs} is more than two days after the opening`)
      : null;
  }

  return [signedRoute("post", "/api/booths/:boothId/facts", "stateFacts", state)];
}

function atMsOf(said: FactBody): number | undefined {
  return "atMs" in said ? said.atMs : undefined;
}

function wrongTime(said: FactBody, nowMs: number): Answer | null {
  const atMs = atMsOf(said);
  if (atMs === undefined) return null;
  if (atMs > nowMs + aheadMs) return wrongField("atMs", `${atMs} has not come yet`);
  return atMs < nowMs - mostAgoMs ? wrongField("atMs", `${atMs} is more than six hours ago`) : null;
}

function wrongField(field: string, reason: string): Answer {
  return no(400, "wrongField", `${field}: ${reason}.`, field);
}

/** The fact in this person's name; its time is stamped by the store. */
function factOf(said: FactBody, by: string): DashboardFact {
  if (said.kind === "takenBack") return { kind: said.kind, factBootId: said.bootId, factSeq: said.seq, by };
  return { ...said, by };
}
