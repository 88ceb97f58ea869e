import { boothBox } from "@boothward/shared-types";
import * as z from "zod";
import type { Booth } from "../store/booths.ts";
import type { AgentRow } from "../store/tables.ts";
import { no, noSuchBooth, readBody } from "./answer.ts";
import { hasBooth } from "./roles.ts";
import { ownerRoute, signedRoute, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const boothBody = z.object({
  name: z.string().trim().min(1).max(60),
  isTrailer: z.boolean(),
  kitSheets: z.int().min(10).max(5_000),
  limitC: z.number().min(20).max(80),
  box: z.nullable(boothBox).default(null),
});

/** Booths, and what they did this evening. */
export function boothRoutes(with_: HttpSurroundings): Route[] {
  const { store, gate, makeId } = with_;

  function listed(booth: Booth, agents: readonly AgentRow[]) {
    const agent = agents.find((each) => each.boothId === booth.boothId);
    if (agent === undefined) return { ...booth, agent: null };
    const { agentId, hostName, pairedAtMs } = agent;
    return { ...booth, agent: { agentId, hostName, pairedAtMs, isLinked: gate.isLinked(agentId) } };
  }

  async function save(boothId: string | null, body: unknown, atMs: number) {
    const read = readBody(boothBody, body);
    if ("refusal" in read) return read.refusal;
    if (await store.booths.isNameTaken(read.value.name, boothId))
      return no(409, "nameTaken", `Another booth is named ${read.value.name} already.`, "name");
    const wrong = read.value.box === null ? null : with_.whyNotBox(read.value.box);
    if (wrong !== null) return no(400, "wrongField", wrong.sentence, `box.${wrong.field}`);
    const booth = { boothId: boothId ?? makeId(), ...read.value };
    if (boothId === null) await store.booths.add(booth, atMs);
    else await store.booths.change(booth);
    await with_.onPlanChanged(booth.boothId);
    return {
      status: boothId === null ? 201 : 200,
      body: listed(booth, await store.booths.agents()),
    };
  }

  return [
    ownerRoute("get", "/api/booths", "changeBooths", async () => {
      const agents = await store.booths.agents();
      const booths = await store.booths.all();
      return { status: 200, body: { booths: booths.map((booth) => listed(booth, agents)) } };
    }),
    ownerRoute("post", "/api/booths", "changeBooths", ({ body, atMs }) => save(null, body, atMs)),
    ownerRoute("put", "/api/booths/:boothId", "changeBooths", async ({ params, body, atMs }) => {
      const booth = await store.booths.byId(params["boothId"] ?? "");
      return booth === null ? noSuchBooth : save(booth.boothId, body, atMs);
    }),
    signedRoute("get", "/api/booths/:boothId/evening", "seeBooths", async ({ params, signed, atMs }) => {
      const boothId = params["boothId"] ?? "";
      const evening = hasBooth(signed, boothId) ? await with_.eveningOf(boothId, atMs) : null;
      return evening === null ? noSuchBooth : { status: 200, body: evening };
    }),
  ];
}
