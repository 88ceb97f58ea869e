import * as z from "zod";
import type { PassRefusal } from "../store/passes.ts";
import { secretHash } from "../store/secretHash.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { openRoute, ownerRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** Packing down and driving home: so long after the last close a pass still opens the page. */
const afterCloseMs = 6 * 3_600_000;

/** A phone, a second one when its battery is empty, and one of a colleague who takes over. */
const mostDevices = 3;

const passBody = z.object({
  name: z.string().trim().min(1).max(80),
  bookingIds: z.array(z.string().min(1).max(80)).min(1).max(20),
});
const joinBody = z.object({ token: z.string().min(1).max(200) });

const refusals: Record<PassRefusal, [status: number, sentence: string]> = {
  wrongPass: [403, "This link is not known here. Ask the owner for a new one."],
  endedPass: [410, "This link ended with its event. Ask the owner for the next one."],
  revokedPass: [410, "The owner took this link back. Ask for a new one."],
  fullPass: [409, `${mostDevices} devices came in by this link already. Ask the owner for another one.`],
};

/** Attendants' ways in: made by the owner for bookings, used without a password, ended with the event. */
export function passRoutes(with_: HttpSurroundings): Route[] {
  const { store, live, log, makeId, randomBytes } = with_;

  async function make({ body, signed, atMs }: Asked<{ name: string }>): Promise<Answer> {
    const read = readBody(passBody, body);
    if ("refusal" in read) return read.refusal;
    const { name, bookingIds } = read.value;
    const closes: number[] = [];
    for (const bookingId of bookingIds) {
      const booking = await store.bookings.byId(bookingId);
      if (booking === null)
        return no(400, "wrongField", `bookingIds: there is no booking ${bookingId}.`, "bookingIds");
      closes.push(booking.closeAtMs);
    }
    const endsAtMs = Math.max(...closes) + afterCloseMs;
    if (endsAtMs <= atMs) return no(409, "isOver", "These events are over: their link would end at once.");
    const token = randomBytes(24).toString("base64url");
    const pass = { passId: makeId(), tokenHash: secretHash(token), name, bookingIds, endsAtMs };
    await store.passes.add({ ...pass, madeBy: signed.name, createdAtMs: atMs });
    return { status: 201, body: { passId: pass.passId, path: `/join#pass=${token}`, endsAtMs } };
  }

  async function join({ body, device, atMs }: Asked): Promise<Answer> {
    const read = readBody(joinBody, body);
    if ("refusal" in read) return read.refusal;
    const token = randomBytes(32).toString("base64url");
    const signIn = { tokenHash: secretHash(token), device, createdAtMs: atMs };
    const entered = await store.passes.enter({
      passTokenHash: secretHash(read.value.token),
      ...{ signIn, mostDevices },
    });
    if (typeof entered === "string") {
      log.warn({ refused: entered }, "a pass was refused");
      const [status, sentence] = refusals[entered];
      return no(status, entered, sentence);
    }
    const { passId, name, endsAtMs } = entered;
    log.info({ passId, device }, "an attendant came in");
    return { status: 200, body: { name, endsAtMs }, cookie: { token, forMs: endsAtMs - atMs } };
  }

  return [
    ownerRoute("get", "/api/passes", "makePasses", async ({ atMs }) => ({
      status: 200,
      body: { passes: await store.passes.standing(atMs) },
    })),
    ownerRoute("post", "/api/passes", "makePasses", make),
    ownerRoute("delete", "/api/passes/:passId", "makePasses", async ({ params, atMs }) => {
      const ended = await store.passes.revoke(params["passId"] ?? "", atMs);
      if (ended === null) return no(404, "noSuchPass", "There is no such link, or it ended already.");
      for (const tokenHash of ended) live.endSignIn(tokenHash);
      return { status: 200, body: {} };
    }),
    openRoute("post", "/api/join", true, join),
  ];
}
