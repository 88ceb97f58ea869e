import type { Message } from "../../dashboard/notify/channel.ts";
import type { NewNotice } from "../../dashboard/store/notices.ts";
import { sixAtMs } from "./aStoredItem.ts";

let made = 0;

/** A notice to all owners that is due at six; `over` changes what a test is about. */
export function aNotice(over: Partial<NewNotice> = {}): NewNotice {
  const noticeId = over.noticeId ?? `notice-${(made += 1)}`;
  return {
    ...{ noticeId, onceKey: noticeId, alertId: null, boothId: "juniper", bookingId: null },
    ...{ why: "raised", severity: "actNow", toRole: "owner", toPersonId: null },
    ...{ text: "Juniper's printer is jammed: clear it.", createdAtMs: sixAtMs, dueAtMs: sixAtMs },
    ...over,
  };
}

/** The same as it is handed to a channel. */
export function aMessage(over: Partial<NewNotice> = {}, deliveryId = "delivery-1"): Message {
  return {
    ...{ deliveryId, boothName: "Juniper", secret: "arrived", title: "Now" },
    ...{ path: "/booths/juniper", link: "https://booths.example/booths/juniper" },
    notice: { ...aNotice(over), spreadAtMs: sixAtMs, endedAtMs: null, ended: null },
  };
}
