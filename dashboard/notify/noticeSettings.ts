import {
  noticeSettings,
  quietHours,
  type NoticeSettings,
  type NoticeSettingsForm,
  type NoticeSettingsView,
  type QuietHours,
} from "@boothward/shared-types";
import * as z from "zod";
import type { Store } from "../store/openStore.ts";
import type { MailAccess } from "./emailChannel.ts";

type Settings = Store["settings"];

const mailPassword = z.object({ password: z.string().nullable() });
const quietName = (accountId: string) => `quietHours:${accountId}`;

/** What the business chose about its notices, and one owner about quiet hours (null: of nobody). */
export async function readNoticeSettings(
  settings: Settings,
  accountId: string | null,
): Promise<NoticeSettings> {
  const business = (await settings.get("notices", noticeSettings)) ?? noticeSettings.parse({});
  return { ...business, quietHours: accountId === null ? null : await readQuietHours(settings, accountId) };
}

export function readQuietHours(settings: Settings, accountId: string): Promise<QuietHours | null> {
  return settings.get(quietName(accountId), z.nullable(quietHours));
}

export async function viewNoticeSettings(settings: Settings, accountId: string): Promise<NoticeSettingsView> {
  const access = await settings.get("mailPassword", mailPassword);
  const chosen = await readNoticeSettings(settings, accountId);
  return { ...chosen, hasMailPassword: (access?.password ?? null) !== null };
}

/** Keeps what an owner chose: quiet hours as their own, the rest for the business, the password apart. */
export async function saveNoticeSettings(
  settings: Settings,
  accountId: string,
  { quietHours: quiet, mailPassword: password, ...business }: NoticeSettingsForm,
  atMs: number,
): Promise<void> {
  await settings.put("notices", business, atMs);
  await settings.put(quietName(accountId), quiet, atMs);
  if (password !== undefined) await settings.put("mailPassword", { password }, atMs);
}

/** The way to the business's mail server; null: none is set. */
export async function readMailAccess(settings: Settings): Promise<MailAccess | null> {
  const { mail } = await readNoticeSettings(settings, null);
  if (mail === null) return null;
  const kept = await settings.get("mailPassword", mailPassword);
  return { ...mail, password: kept?.password ?? null };
}
