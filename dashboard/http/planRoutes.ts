import * as z from "zod";
import { no, readBody, type Answer } from "./answer.ts";
import { hasBooth } from "./roles.ts";
import { ownerRoute, signedRoute, type Route } from "./route.ts";
import type { HttpSurroundings, NoSwap } from "./surroundings.ts";

const noSuchBooking = no(404, "noSuchBooking", "There is no such booking; it may have been taken out.");

const swapBody = z.object({ toBoothId: z.string().min(1).max(80), atMs: z.int() });

/** What follows from a booking: its plan, its opening checks, and another booth that takes over. */
export function planRoutes(with_: HttpSurroundings): Route[] {
  return [
    signedRoute("get", "/api/bookings/:bookingId/plan", "seeBooths", async ({ params, signed, atMs }) => {
      const plan = await with_.planOf(params["bookingId"] ?? "", atMs);
      if (plan === null || !hasBooth(signed, plan.booking.boothId)) return noSuchBooking;
      return { status: 200, body: plan };
    }),
    signedRoute("get", "/api/bookings/:bookingId/checks", "tickChecks", async ({ params, signed, atMs }) => {
      const checks = await with_.checksOf(params["bookingId"] ?? "", atMs);
      if (checks === null || !hasBooth(signed, checks.boothId)) return noSuchBooking;
      return { status: 200, body: checks };
    }),
    ownerRoute("post", "/api/bookings/:bookingId/swap", "planEvents", async (asked) => {
      const read = readBody(swapBody, asked.body);
      if ("refusal" in read) return read.refusal;
      const bookingId = asked.params["bookingId"] ?? "";
      const said = { bookingId, saidAtMs: asked.atMs, by: asked.signed.name };
      const swapped = await with_.swapBooth({ ...said, ...read.value });
      if ("refused" in swapped) return refusalOf(swapped, read.value);
      for (const { boothId } of [swapped.ended, swapped.begun]) await with_.onPlanChanged(boothId);
      if (swapped.facts.length > 0) with_.onFacts(swapped.ended.boothId, swapped.facts);
      return { status: 201, body: { ended: swapped.ended, begun: swapped.begun } };
    }),
  ];
}

function refusalOf(no_: NoSwap, { toBoothId, atMs }: z.infer<typeof swapBody>): Answer {
  switch (no_.refused) {
    case "noSuchBooking":
      return noSuchBooking;
    case "noSuchBooth":
      return no(400, "wrongField", `toBoothId: there is no booth ${toBoothId}.`, "toBoothId");
    case "sameBooth":
      return no(400, "wrongField", `toBoothId: ${toBoothId} is the booth that is there.`, "toBoothId");
    case "notWithin":
      return no(400, "wrongField", `atMs: ${atMs} is not within the open hours.`, "atMs");
    case "busy":
      return no(409, "overlaps", `That booth is at ${no_.client} for part of these hours.`, "toBoothId");
  }
}
