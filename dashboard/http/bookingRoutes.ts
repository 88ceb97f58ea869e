import { bookingInput, eventOf, type Booking, type BookingInput } from "@boothward/shared-types";
import * as z from "zod";
import { no, readBody, type Answer } from "./answer.ts";
import { ownerRoute, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const noSuchBooking = no(404, "noSuchBooking", "There is no such booking; it may have been taken out.");

const notOver = no(409, "notOver", "This event is not over: what was really used is known afterwards.");

/** More booths than any event of a small business has. */
const alongsideBody = z.object({ alongside: z.array(bookingInput).max(20).default([]) });

function overlaps(booth: string, { client }: Booking): Answer {
  return no(409, "overlaps", `${booth} is at ${client} for part of these hours.`, "openAtMs");
}

/** The plan: which booth is where, when; and of what is over, how the forecast would have done. */
export function bookingRoutes({ store, makeId, onPlanChanged, replayOf }: HttpSurroundings): Route[] {
  /** A booth of the plan that is not there, as the answer to it. */
  async function noBooth({ boothId }: BookingInput): Promise<Answer | null> {
    if ((await store.booths.byId(boothId)) !== null) return null;
    return no(400, "wrongField", `boothId: there is no booth ${boothId}.`, "boothId");
  }

  /** A new booking, with those of the other booths of its event that are sent alongside: all of them, or none. */
  async function add(body: unknown): Promise<Answer> {
    const read = readBody(bookingInput, body);
    if ("refusal" in read) return read.refusal;
    const more = readBody(alongsideBody, body);
    if ("refusal" in more) return more.refusal;
    const booking = { ...read.value, bookingId: makeId() };
    const eventId = eventOf(booking);
    const others = more.value.alongside.map((plan) => ({ ...plan, eventId, bookingId: makeId() }));
    const all = [booking, ...others];
    for (const each of all) {
      const refusal = await noBooth(each);
      if (refusal !== null) return refusal;
    }
    const inTheWay = await store.bookings.addTogether(all);
    if (inTheWay !== null) return overlaps(await nameOf(inTheWay.busy, booking), inTheWay.with);
    for (const { boothId } of all) await onPlanChanged(boothId);
    return { status: 201, body: booking };
  }

  async function nameOf(busy: Booking, asked: Booking): Promise<string> {
    if (busy === asked) return "This booth";
    return (await store.booths.byId(busy.boothId))?.name ?? "Another booth";
  }

  async function change(before: Booking, body: unknown): Promise<Answer> {
    const read = readBody(bookingInput, body);
    if ("refusal" in read) return read.refusal;
    const plan = read.value;
    const refusal = await noBooth(plan);
    if (refusal !== null) return refusal;
    const other = await store.bookings.overlapping(plan, before.bookingId);
    if (other !== null) return overlaps("This booth", other);
    const booking = { ...plan, bookingId: before.bookingId };
    await store.bookings.save(booking);
    if (before.boothId !== plan.boothId) await onPlanChanged(before.boothId);
    await onPlanChanged(plan.boothId);
    return { status: 200, body: booking };
  }

  return [
    ownerRoute("get", "/api/bookings", "planEvents", async () => ({
      status: 200,
      body: { bookings: await store.bookings.all() },
    })),
    ownerRoute("post", "/api/bookings", "planEvents", ({ body }) => add(body)),
    ownerRoute("put", "/api/bookings/:bookingId", "planEvents", async ({ params, body }) => {
      const before = await store.bookings.byId(params["bookingId"] ?? "");
      return before === null ? noSuchBooking : change(before, body);
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
