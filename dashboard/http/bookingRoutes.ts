import { bookingInput, type Booking } from "@boothward/shared-types";
import { no, readBody, type Answer } from "./answer.ts";
import { ownerRoute, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const noSuchBooking = no(404, "noSuchBooking", "There is no such booking; it may have been taken out.");

const notOver = no(409, "notOver", "This event is not over: what was really used is known afterwards.");

/** The plan: which booth is where, when; and of what is over, how the forecast would have done. */
export function bookingRoutes({ store, makeId, onPlanChanged, replayOf }: HttpSurroundings): Route[] {
  async function save(before: Booking | null, body: unknown): Promise<Answer> {
    const read = readBody(bookingInput, body);
    if ("refusal" in read) return read.refusal;
    const plan = read.value;
    if ((await store.booths.byId(plan.boothId)) === null)
      return no(400, "wrongField", `boothId: there is no booth ${plan.boothId}.`, "boothId");
    const other = await store.bookings.overlapping(plan, before?.bookingId ?? null);
    if (other !== null)
      return no(409, "overlaps", `This booth is at ${other.client} for part of these hours.`, "openAtMs");
    const booking = { ...plan, bookingId: before?.bookingId ?? makeId() };
    await store.bookings.save(booking);
    if (before !== null && before.boothId !== plan.boothId) await onPlanChanged(before.boothId);
    await onPlanChanged(plan.boothId);
    return { status: before === null ? 201 : 200, body: booking };
  }

  return [
    ownerRoute("get", "/api/bookings", "planEvents", async () => ({
      status: 200,
      body: { bookings: await store.bookings.all() },
    })),
    ownerRoute("post", "/api/bookings", "planEvents", ({ body }) => save(null, body)),
    ownerRoute("put", "/api/bookings/:bookingId", "planEvents", async ({ params, body }) => {
      const before = await store.bookings.byId(params["bookingId"] ?? "");
      return before === null ? noSuchBooking : save(before, body);
    }),
    ownerRoute("get", "/api/bookings/:bookingId/replay", "planEvents", async ({ params, atMs }) => {
      const replay = await replayOf(params["bookingId"] ?? "", atMs);
      if (replay === "noSuchBooking") return noSuchBooking;
      return replay === "notOver" ? notOver : { status: 200, body: replay };
    }),
    ownerRoute("delete", "/api/bookings/:bookingId", "planEvents", async ({ params }) => {
      const before = await store.bookings.byId(params["bookingId"] ?? "");
      if (before === null) return noSuchBooking;
      await store.bookings.remove(before.bookingId);
      await onPlanChanged(before.boothId);
      return { status: 200, body: {} };
    }),
  ];
}
