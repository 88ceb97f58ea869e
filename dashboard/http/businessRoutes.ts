import { businessSettings } from "@boothward/shared-types";
import { readLogo } from "../documents/logo.ts";
import { no, readBody } from "./answer.ts";
import { logoAnswer } from "./reportFiles.ts";
import { ownerRoute, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** What the business is called, its logo, its paper and what a roll costs: for reports. */
export function businessRoutes({ store, reports }: HttpSurroundings): Route[] {
  const path = "/api/settings/business";
  return [
    ownerRoute("get", path, "chooseSettings", async () => ({ status: 200, body: await reports.business() })),
    ownerRoute("put", path, "chooseSettings", async ({ body, atMs }) => {
      const read = readBody(businessSettings, body);
      if ("refusal" in read) return read.refusal;
      const { logo } = read.value;
      const drawn = logo === null ? null : readLogo(logo);
      if (drawn !== null && "sentence" in drawn) return no(400, "wrongField", drawn.sentence, "logo");
      await store.settings.put("business", read.value, atMs);
      return { status: 200, body: read.value };
    }),
    ownerRoute("get", `${path}/logo`, "chooseSettings", async () => logoAnswer(await reports.business())),
  ];
}
