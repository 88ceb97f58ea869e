import { noticeSettingsForm } from "@boothward/shared-types";
import { saveNoticeSettings, viewNoticeSettings } from "../notify/noticeSettings.ts";
import { readBody } from "./answer.ts";
import { ownerRoute, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** What the business chose; quiet hours are each owner's own. */
export function settingRoutes({ store: { settings } }: HttpSurroundings): Route[] {
  const path = "/api/settings/notices";
  return [
    ownerRoute("get", path, "chooseSettings", async ({ signed }) => ({
      status: 200,
      body: await viewNoticeSettings(settings, signed.accountId),
    })),
    ownerRoute("put", path, "chooseSettings", async ({ body, signed, atMs }) => {
      const read = readBody(noticeSettingsForm, body);
      if ("refusal" in read) return read.refusal;
      await saveNoticeSettings(settings, signed.accountId, read.value, atMs);
      return { status: 200, body: await viewNoticeSettings(settings, signed.accountId) };
    }),
  ];
}
