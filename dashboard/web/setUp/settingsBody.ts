import type { NoticeSettings } from "@boothward/shared-types/notices";
import { matter } from "@boothward/shared-types/words";
import type { Written } from "../parts/readForm.ts";

/** What the form of notices sends; what is wrong in it the dashboard says by the field's name. */
export function settingsBody(written: Written) {
  const { number, text, has } = written;
  const password = text("mailPassword");
  return {
    escalateAfterMin: { actNow: number("escalateAfterMin.actNow"), plan: number("escalateAfterMin.plan") },
    repeatAfterMin: number("repeatAfterMin"),
    units: text("units"),
    rulesOff: matter.options.filter((each) => !has(`rule.${each}`)),
    mail: has("mail") ? mailOf(written) : null,
    ping: has("ping") ? { url: text("ping.url"), everyMin: number("ping.everyMin") } : null,
    quietHours: has("quietHours")
      ? { from: text("quietHours.from"), to: text("quietHours.to"), zone: text("quietHours.zone") }
      : null,
    ...(has("mail") && password !== "" ? { mailPassword: password } : {}),
  };
}

function mailOf({ text, number, textOrNull }: Written) {
  return {
    host: text("mail.host"),
    port: number("mail.port"),
    security: text("mail.security"),
    user: textOrNull("mail.user"),
    from: text("mail.from"),
  };
}

/** Fields that the form shows, so that a refusal stands at them. */
export const settingsFields: readonly string[] = [
  ...["escalateAfterMin.actNow", "escalateAfterMin.plan", "repeatAfterMin"],
  ...["quietHours.from", "quietHours.to", "quietHours.zone", "ping.url", "ping.everyMin"],
  ...["mail.host", "mail.port", "mail.security", "mail.user", "mail.from", "mailPassword"],
];

/** A plain start for what is switched on for the first time. */
export const firstChoices = {
  quietHours: (zone: string): NonNullable<NoticeSettings["quietHours"]> => ({
    from: "22:00",
    to: "08:00",
    zone,
  }),
  mail: { host: "", port: 587, security: "startTls", user: null, from: "" } as const,
  ping: { url: "", everyMin: 5 } as const,
};
