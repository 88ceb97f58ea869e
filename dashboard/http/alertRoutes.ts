import { alertAnswer } from "@boothward/shared-types";
import * as z from "zod";
import { no, readBody, type Answer } from "./answer.ts";
import { hasBooth, type Signed } from "./roles.ts";
import { signedRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const dayMs = 24 * 3_600_000;

const sayBody = z.object({
  answer: alertAnswer,
  /** Made by the page, once for each press: sent again it counts once. */
  sayId: z.uuid(),
  /** later: until when; without it until the next lull. */
  untilAtMs: z.int().optional(),
});

const listQuery = z.object({ from: z.coerce.number().int().min(0).optional() });

const noSuchAlert = no(404, "noSuchAlert", "There is no such alert at a booth of yours.");

/** Alerts with their stories, and what people say to them. */
export function alertRoutes(with_: HttpSurroundings): Route[] {
  const { store } = with_;

  async function say({ params, body, signed, device, atMs }: Asked<Signed>): Promise<Answer> {
    const read = readBody(sayBody, body);
    if ("refusal" in read) return read.refusal;
    const alertId = params["alertId"] ?? "";
    const row = await store.alerts.byId(alertId);
    if (row === null || !hasBooth(signed, row.boothId)) return noSuchAlert;
    const { answer, sayId, untilAtMs = null } = read.value;
    const said = { answer, sayId, untilAtMs, by: signed.name, device, atMs };
    const after = await with_.sayToAlert(row.boothId, alertId, said);
    return after === "noSuchAlert" ? noSuchAlert : { status: 200, body: after };
  }

  async function list({ query, signed, atMs }: Asked<Signed>): Promise<Answer> {
    const read = readBody(listQuery, query);
    if ("refusal" in read) return read.refusal;
    const boothIds = signed.role === "owner" ? null : signed.boothIds;
    const alerts = await with_.alertStories(boothIds, read.value.from ?? atMs - dayMs, atMs);
    return { status: 200, body: { alerts } };
  }

  return [
    signedRoute("get", "/api/alerts", "seeAlerts", list),
    signedRoute("post", "/api/alerts/:alertId/say", "answerAlerts", say),
  ];
}
