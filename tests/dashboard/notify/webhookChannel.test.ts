import { createHmac, timingSafeEqual } from "node:crypto";
import { describe, expect, it } from "vitest";
import { openCallOut } from "../../../dashboard/notify/callOut.ts";
import { webhookChannel, webhookSecret, webhookSignature } from "../../../dashboard/notify/webhookChannel.ts";
import { nearby } from "../../support/aDashboard.ts";
import { aMessage } from "../../support/aMessage.ts";
import { aReceiver, type Answering, type ReceivedCall } from "../../support/aReceiver.ts";

const atMs = Date.UTC(2026, 5, 20, 18);
const secret = webhookSecret((size) => Buffer.alloc(size, 7));

describe("a signed webhook", () => {
  it("is signed as the specification's published example", () => {
    // Source: the example that the Standard Webhooks reference libraries test against.
    const signature = webhookSignature(
      "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw",
      "msg_p5jXN8AQM9LWM0D4loKWxJek",
      1_614_265_330,
      '{"test": 2432232314}',
    );
    expect(signature).toBe("v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=");
  });

  it("is verified by its receiver from what it got, and a changed one is not", async () => {
    const receiver = await aReceiver(204);
    const channel = webhookChannel(openCallOut(nearby));
    expect(await channel.send({ url: `${receiver.url}/in`, secret }, aMessage(), atMs)).toEqual({
      result: "sent",
    });
    const [call] = receiver.calls as [ReceivedCall];
    expect(call.headers).toMatchObject({
      "webhook-id": "delivery-1",
      "webhook-timestamp": String(atMs / 1_000),
      "content-type": "application/json",
    });
    expect(isSigned(call, call.body)).toBe(true);
    expect(isSigned(call, Buffer.concat([call.body, Buffer.from(" ")]))).toBe(false);
    expect(JSON.parse(call.body.toString())).toMatchObject({
      type: "notice",
      data: { booth: "Juniper", severity: "actNow", link: "https://booths.example/booths/juniper" },
    });
  });

  it.each<[Answering, string]>([
    [410, "gone"],
    [404, "retryable"],
    [500, "retryable"],
    [301, "refused"],
    ["nothing", "retryable"],
  ])("answered with %j is %s", async (answering, result) => {
    const receiver = await aReceiver(answering);
    const channel = webhookChannel(openCallOut({ ...nearby, mostMs: 300 }));
    expect(await channel.send({ url: receiver.url, secret }, aMessage(), atMs)).toMatchObject({ result });
  });
});

/** A receiver's check, from the specification: HMAC-SHA256 with the decoded secret over id, timestamp and body. */
function isSigned({ headers }: ReceivedCall, body: Buffer): boolean {
  const signed = `${String(headers["webhook-id"])}.${String(headers["webhook-timestamp"])}.`;
  const mac = createHmac("sha256", Buffer.from(secret.slice("whsec_".length), "base64"));
  const wanted = mac.update(Buffer.concat([Buffer.from(signed), body])).digest();
  const given = Buffer.from(String(headers["webhook-signature"]).slice("v1,".length), "base64");
  return wanted.length === given.length && timingSafeEqual(wanted, given);
}
