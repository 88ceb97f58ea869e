import * as z from "zod";
import { seasonEndOf, stockView } from "../planning/stock/stockView.ts";
import { loadedRolls } from "./loadedRolls.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { knownStock } from "./knownStock.ts";
import { ownerRoute, type Route } from "./route.ts";
import { stockLines } from "./stockLines.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const viewQuery = z.object({
  service: z.enum(["0.95", "0.99"]).default("0.99").transform(Number),
  before: z.string().max(200).nullable().default(null),
});

const seasonQuery = z.object({
  endAtMs: z.coerce.number().int(),
  shortCost: z.coerce.number().positive().max(1_000_000),
  leftCost: z.coerce.number().positive().max(1_000_000),
});

const countFirst = no(409, "countFirst", "Nobody knows how many rolls there are: count them first.");

/** The stock: where the rolls are, what eats them, when to order; and lines that people add to its ledger. */
export function stockRoutes(with_: HttpSurroundings): Route[] {
  const lines = stockLines(with_);
  const loaded = loadedRolls(with_);

  async function view(query: unknown, atMs: number): Promise<Answer> {
    const read = readBody(viewQuery, query);
    if ("refusal" in read) return read.refusal;
    const { service: serviceLevel, before: olderBefore } = read.value;
    return { status: 200, body: stockView(await knownStock(with_, atMs), { serviceLevel, olderBefore }) };
  }

  async function seasonEnd(query: unknown, atMs: number): Promise<Answer> {
    const read = readBody(seasonQuery, query);
    if ("refusal" in read) return read.refusal;
    const { endAtMs } = read.value;
    if (endAtMs <= atMs) return no(400, "wrongField", `endAtMs: ${endAtMs} is over.`, "endAtMs");
    const found = seasonEndOf(await knownStock(with_, atMs), read.value);
    return found === null ? countFirst : { status: 200, body: found };
  }

  return [
    ownerRoute("get", "/api/stock", "keepStock", ({ query, atMs }) => view(query, atMs)),
    ownerRoute("get", "/api/stock/season-end", "keepStock", ({ query, atMs }) => seasonEnd(query, atMs)),
    ownerRoute("get", "/api/bookings/:bookingId/loaded", "keepStock", ({ params }) =>
      loaded.see(params["bookingId"] ?? ""),
    ),
    ownerRoute("put", "/api/bookings/:bookingId/loaded", "keepStock", ({ params, body, signed, atMs }) =>
      loaded.load(params["bookingId"] ?? "", body, signed.name, atMs),
    ),
    ownerRoute("post", "/api/stock/moves", "keepStock", ({ body, signed, atMs }) =>
      lines.move(body, signed.name, atMs),
    ),
    ownerRoute("post", "/api/stock/moves/:moveId/take-back", "keepStock", ({ params, body, signed, atMs }) =>
      lines.takeBack(params["moveId"] ?? "", body, signed.name, atMs),
    ),
    ownerRoute("post", "/api/stock/counts", "keepStock", ({ body, signed, atMs }) =>
      lines.count(body, signed.name, atMs),
    ),
    ownerRoute("post", "/api/stock/orders", "keepStock", ({ body, signed, atMs }) =>
      lines.order(body, signed.name, atMs),
    ),
    ownerRoute("post", "/api/stock/orders/:orderId/arrived", "keepStock", ({ params, body, signed, atMs }) =>
      lines.arrived(params["orderId"] ?? "", body, signed.name, atMs),
    ),
  ];
}
