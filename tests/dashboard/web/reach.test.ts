import { matter, noticeSettingsForm, reachForm } from "@boothward/shared-types";
import QRCode from "qrcode";
import { describe, expect, it } from "vitest";
import { addressAbilities } from "../../../dashboard/web/reach/addressAbilities.ts";
import { bytesOf } from "../../../dashboard/web/reach/allowNotices.ts";
import { phoneAbilities } from "../../../dashboard/web/reach/phoneAbilities.ts";
import type { Device } from "../../../dashboard/web/reach/phoneAbilities.ts";
import { testLines } from "../../../dashboard/web/reach/testLines.ts";
import { qrPath, quietModules } from "../../../dashboard/web/setUp/qrPath.ts";
import { reachBody } from "../../../dashboard/web/setUp/reachBody.ts";
import { settingsBody } from "../../../dashboard/web/setUp/settingsBody.ts";
import { notices } from "../../../dashboard/web/words/en/people.ts";
import type { Delivery } from "../../../dashboard/web/state/alertShapes.ts";
import { eveningAtMs } from "../../support/aBoothView.ts";

const device: Device = {
  ...{ isSecure: true, hasAudio: true, isBellOn: false, hasVibration: true, hasPush: true },
  ...{ permission: "granted", isSubscribed: true, isApple: false, isInstalled: false },
};
const push = (over: Partial<Device>) => {
  const found = phoneAbilities({ ...device, ...over }).find(({ icon }) => icon === "push");
  return [found?.is, found?.says];
};

describe("how a phone reaches its person", () => {
  it("says yes to notices only with permission and a subscription", () => {
    expect(push({})[0]).toBe("yes");
    expect(push({ isSubscribed: false })[0]).toBe("notYet");
    expect(push({ permission: "default" })[0]).toBe("notYet");
    expect(push({ permission: "denied" })).toEqual(["no", expect.stringContaining("forbidden")]);
  });

  // W3C Push API section 3.1 and Service Workers section 2.1: secure contexts only. Apple's phones since iOS 16.4, for
  // web apps on the home screen only (from memory).
  it("says why not: the address first, then the home screen of an iPhone, then the browser", () => {
    expect(push({ isSecure: false, isApple: true })).toEqual(["no", expect.stringContaining("https")]);
    expect(push({ isApple: true, hasPush: false })).toEqual([
      "no",
      expect.stringContaining("Add to Home Screen"),
    ]);
    expect(push({ isApple: true, isInstalled: true })[0]).toBe("yes");
    expect(push({ hasPush: false })).toEqual(["no", "This browser takes no notices from pages."]);
  });

  it("asks for a tap before it calls the sound on", () => {
    const sound = (over: Partial<Device>) => phoneAbilities({ ...device, ...over })[0]?.is;
    expect([sound({}), sound({ isBellOn: true }), sound({ hasAudio: false })]).toEqual([
      "notYet",
      "yes",
      "no",
    ]);
  });
});

describe("what is watched", () => {
  it("has a box for each matter, so that saving switches off nothing that was not shown", () => {
    const shown = notices.ruleGroups.flatMap(({ rules }) => [...rules]);
    expect(shown.sort()).toEqual([...matter.options].sort());
  });
});

describe("what an address can do", () => {
  const abilities = (protocol: string, isSecureContext: boolean, isPublic: "yes" | "no" | "unknown") =>
    addressAbilities({ isSecureContext, location: { protocol } }, { origin: null, isPublic }).map(
      ({ is }) => is,
    );

  it("is all with https and a public name, and nothing but the open page with plain http", () => {
    expect(abilities("https:", true, "yes")).toEqual(["yes", "yes", "yes"]);
    expect(abilities("http:", false, "no")).toEqual(["no", "no", "no"]);
    expect(abilities("http:", false, "unknown")[2]).toBe("unknown");
  });

  // W3C Secure Contexts section 3.1: loopback counts as trustworthy without https.
  it("tells the computer's own name from a secure connection", () => {
    expect(abilities("http:", true, "no")).toEqual(["no", "yes", "no"]);
  });
});

describe("a test alert", () => {
  const sent: Delivery = {
    ...{
      way: "push",
      label: "Phone",
      state: "taken",
      lastSaid: null,
      takenAtMs: eveningAtMs,
      arrivedAtMs: null,
    },
  };
  const lines = (deliveries: Delivery[] | null, isOver = false) => testLines(deliveries, eveningAtMs, isOver);

  it("is called come only when the device said so", () => {
    expect(lines([{ ...sent, arrivedAtMs: eveningAtMs + 2100 }])).toEqual(["Phone: came after 2 s."]);
    expect(lines([sent])).toEqual(["Phone: sent; whether it came is not known."]);
    expect(lines([sent], true)).toHaveLength(2);
  });

  it("says what failed, and when there is no way at all", () => {
    expect(lines([{ ...sent, state: "refused", lastSaid: "410 Gone" }])).toEqual([
      "Phone: did not go out. 410 Gone",
    ]);
    expect(lines([])[0]).toContain("There is no way to reach you yet");
    expect(lines(null)).toEqual(["Sent. Waiting for it to come."]);
  });
});

describe("keys and codes", () => {
  it("reads URL-safe base64 without padding", () => {
    // RFC 4648 section 10 gives "foobar"; section 5 the two letters that differ.
    expect(new TextDecoder().decode(bytesOf("Zm9vYmFy"))).toBe("foobar");
    expect([...bytesOf("-_8")]).toEqual([0xfb, 0xff]);
  });

  it("draws a code's dark modules and nothing else", () => {
    const { modules } = QRCode.create("https://booths.example/join#pass=4f7Kq2", {
      errorCorrectionLevel: "M",
    });
    const drawn = new Set<string>();
    for (const [, x, y, run] of qrPath(modules).matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g))
      for (let i = 0; i < Number(run); i += 1)
        drawn.add(`${Number(x) + i - quietModules} ${Number(y) - quietModules}`);
    const dark: string[] = [];
    for (let y = 0; y < modules.size; y += 1)
      for (let x = 0; x < modules.size; x += 1) if (modules.get(y, x)) dark.push(`${x} ${y}`);
    expect([...drawn].sort()).toEqual(dark.sort());
    // ISO/IEC 18004 section 6.3.3, from memory: a finder is 7 by 7, its ring light, its middle 3 by 3.
    expect(drawn.has("0 0") && !drawn.has("1 1") && drawn.has("2 2") && !drawn.has("7 7")).toBe(true);
  });
});

/** The fields of a form as they are read. */
function written(fields: Record<string, string>) {
  const text = (name: string) => fields[name] ?? "";
  return {
    text,
    has: (name: string) => name in fields,
    number: (name: string) => (text(name) === "" ? null : Number(text(name))),
    textOrNull: (name: string) => (text(name) === "" ? null : text(name)),
  };
}

describe("forms about notices", () => {
  it("send ways to be reached that the dashboard reads", () => {
    const email = reachBody("email", written({ label: "Office", "body.to": "office@example.org" }));
    const call = reachBody(
      "http",
      written({
        ...{ label: "Lamp", "body.method": "POST", "body.url": "https://lamp.example/", "body.form": "json" },
        ...{ "body.template": '{"t":"{text}"}', "body.headers": "Authorization: Bearer a:b\n\n X-Room : 2 " },
      }),
    );
    expect(reachForm.safeParse(email).success).toBe(true);
    expect(reachForm.parse(call)).toMatchObject({
      body: {
        headers: [
          { name: "Authorization", content: "Bearer a:b" },
          { name: "X-Room", content: "2" },
        ],
      },
    });
    expect(
      reachForm.safeParse(reachBody("webhook", written({ label: "Hook", "body.url": "no" }))).success,
    ).toBe(false);
  });

  const base = {
    "escalateAfterMin.actNow": "4",
    "escalateAfterMin.plan": "20",
    repeatAfterMin: "10",
    units: "us",
    "rule.tooHot": "on",
  };

  it("send what was chosen, with what is switched off left out", () => {
    const body = settingsBody(written(base));
    expect(noticeSettingsForm.parse(body)).toMatchObject({
      ...{ escalateAfterMin: { actNow: 4, plan: 20 }, mail: null, ping: null, quietHours: null },
      units: "us",
    });
    expect(body.rulesOff).not.toContain("tooHot");
    expect(body.rulesOff).toContain("printerStopped");
    expect("mailPassword" in body).toBe(false);
  });

  it("send a mail server's password only when one was written", () => {
    const mail = {
      ...{ mail: "on", "mail.host": "mail.example", "mail.port": "587", "mail.security": "startTls" },
      ...{ "mail.from": "booths@example.org" },
    };
    expect("mailPassword" in settingsBody(written({ ...base, ...mail }))).toBe(false);
    const body = settingsBody(written({ ...base, ...mail, mailPassword: "a secret" }));
    expect(noticeSettingsForm.parse(body)).toMatchObject({
      mailPassword: "a secret",
      mail: { user: null, port: 587 },
    });
  });
});
