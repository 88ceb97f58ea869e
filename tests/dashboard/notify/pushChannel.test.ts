import { pushMessage } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import webPush from "web-push";
import { openCallOut } from "../../../dashboard/notify/callOut.ts";
import { pushChannel } from "../../../dashboard/notify/pushChannel.ts";
import { nearby } from "../../support/aDashboard.ts";
import { aMessage } from "../../support/aMessage.ts";
import { aCertificate, aReceiver, type Answering } from "../../support/aReceiver.ts";
import { needsTool } from "../../support/needsTool.ts";
import { aBrowser, vapidClaims } from "../../support/pushDecryption.ts";

describe("the reading of a push in these tests", () => {
  it("reads the published example", () => {
    // Source: RFC 8291 appendix A.
    const browser = aBrowser({
      privateKey: "q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94",
      auth: "BTBZMqHH6r4Tts7J_aSIgg",
    });
    expect(browser.keys.p256dh).toBe(
      "BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4",
    );
    const body =
      "DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN";
    expect(browser.read(Buffer.from(body, "base64url"))).toBe("When I grow up, I want to be a watermelon");
  });
});

needsTool("openssl", "apt-get install openssl")("web push", () => {
  const keys = webPush.generateVAPIDKeys();
  const atMs = Date.UTC(2026, 5, 20, 18);

  async function aService(answering: Answering = 201) {
    const certificate = aCertificate();
    const service = await aReceiver(answering, certificate);
    const callOut = openCallOut({ ...nearby, trustedCa: certificate.cert, mostMs: 2_000 });
    const subject = () => Promise.resolve("mailto:ama@booths.example");
    const channel = pushChannel(callOut, keys, subject);
    const browser = aBrowser();
    const subscription = { endpoint: `${service.url}/push/one`, keys: browser.keys };
    const send = (over: Parameters<typeof aMessage>[0] = {}) =>
      channel.send(subscription, aMessage(over), atMs);
    return { service, browser, send };
  }

  it("is read by its browser alone, and signed for the service", async () => {
    const { service, browser, send } = await aService();
    expect(await send({ noticeId: "n-1", alertId: "alert-1" })).toEqual({ result: "sent" });
    const [call] = service.calls;
    const read = pushMessage.parse(JSON.parse(browser.read(call?.body ?? Buffer.alloc(0))));
    expect(read).toEqual({
      ...{ noticeId: "n-1", deliveryId: "delivery-1", secret: "arrived", alertId: "alert-1" },
      ...{ boothId: "juniper", severity: "actNow", title: "Now", path: "/booths/juniper" },
      body: "Juniper's printer is jammed: clear it.",
    });
    expect(() => aBrowser().read(call?.body ?? Buffer.alloc(0))).toThrow();
    // Source: RFC 8292 section 2: the push service's origin, an end within 24 hours, a contact.
    const claims = vapidClaims(call?.headers.authorization);
    expect(claims).toMatchObject({ aud: service.url, sub: "mailto:ama@booths.example" });
    expect(claims.publicKey).toBe(keys.publicKey);
    expect(claims.exp).toBeGreaterThan(atMs / 1_000);
    expect(claims.exp).toBeLessThanOrEqual(atMs / 1_000 + 24 * 3_600);
    // Source: RFC 8291 section 4: below 4096 bytes in all; house rule: 3 kB.
    expect(call?.body.length).toBeLessThan(3_000);
    expect(call?.headers["content-encoding"]).toBe("aes128gcm");
  });

  it("says how pressing it is and for how long it is good", async () => {
    const { service, send } = await aService();
    for (const severity of ["actNow", "plan", "note"] as const) await send({ severity });
    await send({ severity: "note", why: "test" });
    const said = service.calls.map(({ headers }) => [headers["urgency"], headers["ttl"]]);
    expect(said).toEqual([
      ["high", "1800"],
      ["normal", "7200"],
      ["low", "21600"],
      ["high", "21600"],
    ]);
  });

  it("takes the place of what was said of the same alert, and of nothing else", async () => {
    const { service, send } = await aService();
    await send({ alertId: "alert-1" });
    await send({ alertId: "alert-1", why: "repeat" });
    await send({ alertId: "alert-2" });
    await send({ alertId: null, noticeId: "digest" });
    const topics = service.calls.map(({ headers }) => headers["topic"]);
    expect(topics[0]).toBe(topics[1]);
    expect(new Set(topics).size).toBe(3);
    // Source: RFC 8030 section 5.4: at most 32 characters of the base64url alphabet.
    for (const topic of topics) expect(topic).toMatch(/^[A-Za-z0-9_-]{1,32}$/);
  });

  it.each<[Answering, object]>([
    [200, { result: "sent" }],
    [202, { result: "sent" }],
    [404, { result: "gone", reason: "it answered 404" }],
    [410, { result: "gone", reason: "it answered 410" }],
    [400, { result: "refused", reason: "it answered 400" }],
    [413, { result: "refused", reason: "it answered 413" }],
    [503, { result: "retryable", retryInMs: null, said: "it answered 503" }],
    [
      { status: 429, headers: { "retry-after": "120" } },
      { result: "retryable", retryInMs: 120_000, said: "it answered 429" },
    ],
    [
      { status: 307, headers: { location: "https://elsewhere.example/" } },
      { result: "refused", reason: "it answered 307, and redirects are not followed" },
    ],
    ["nothing", { result: "retryable", retryInMs: null, said: "it did not answer in time" }],
    ["endless", { result: "sent" }],
  ])("answered with %j gives %j", async (answering, result) => {
    const { send, service } = await aService(answering);
    expect(await send()).toEqual(result);
    expect(service.calls).toHaveLength(1);
  });

  it("to a service whose certificate nobody vouches for is not sent", async () => {
    const service = await aReceiver(201, aCertificate());
    const channel = pushChannel(openCallOut(nearby), keys, () =>
      Promise.resolve("mailto:ama@booths.example"),
    );
    const subscription = { endpoint: service.url, keys: aBrowser().keys };
    const said = "its certificate is not valid";
    expect(await channel.send(subscription, aMessage(), atMs)).toMatchObject({ result: "retryable", said });
    expect(service.calls).toEqual([]);
  });
});
