import { businessSettings } from "@boothward/shared-types";
import { readLogo } from "../documents/logo.ts";
import { no, readBody } from "./answer.ts";
import { logoAnswer } from "./reportFiles.ts";
import { ownerRoute, takesFile, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** A logo of half a megabyte, as base64 in its form. */
const mostLogoBodyBytes = 704 * 1024;

/** What the business is called, its logo, its paper and what a roll costs: for reports. */
export function businessRoutes({ store, reports }: HttpSurroundings): Route[] {
  const path = "/api/settings/business";
  return [
    ownerRoute("get", path, "chooseSettings", async () => ({ status: 200, body: await reports.business() })),
    takesFile(
      ownerRoute("put", path, "chooseSettings", async ({ body, atMs }) => {
        const read = readBody(businessSettings, body);
        if ("refusal" in read) return read.refusal;
        const { logo } = read.value;
        const drawn = logo === null ? null : readLogo(logo);
        if (drawn !== null && "sentence" in drawn) return no(400, "wrongField", drawn.sentence, "logo");
        await store.settings.put("business", read.value, atMs);
        return { status: 200, body: read.value };
      }),
      mostLogoBodyBytes,
    ),
    ownerRoute("get", `${path}/logo`, "chooseSettings", async () => logoAnswer(await reports.business())),
  ];
}
