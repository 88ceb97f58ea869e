import { httpBody } from "@boothward/shared-types";
import type { CallOut } from "./callOut.ts";
import type { Channel } from "./channel.ts";
import { resultOfCall } from "./resultOfCall.ts";
import { fillTemplate } from "./template.ts";

/** A call of the person's own making. */
export function httpChannel(callOut: CallOut): Channel {
  return {
    async send(body, { notice, boothName, link, deliveryId }, atMs) {
      const template = httpBody.parse(body);
      const { text, severity } = notice;
      const values = { text, severity, link, booth: boothName ?? "", id: deliveryId };
      const called = await callOut({ method: template.method, ...fillTemplate(template, values) });
      return resultOfCall(called, atMs, (status) => (status === 410 ? "gone" : "refused"));
    },
  };
}
