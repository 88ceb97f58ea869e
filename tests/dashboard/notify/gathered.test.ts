import { describe, expect, it } from "vitest";
import { saveNoticeSettings } from "../../../dashboard/notify/noticeSettings.ts";
import { noticeSettings } from "@boothward/shared-types";
import { aNotifier } from "../../support/aNotifier.ts";
import { aNotice } from "../../support/aMessage.ts";
import { aReceiver } from "../../support/aReceiver.ts";
import { ended, heard, keepAlert, texts } from "../../support/heardNotices.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

describe("a flood of notices", () => {
  it("of 500 in a minute is gathered into a few, and nothing of it is lost", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    const noticeIds = Array.from({ length: 500 }, (_, at) => `n-${at}`);
    for (let second = 0; second < 50; second++) {
      const atMs = sixAtMs + second * 1_000;
      const now = noticeIds.slice(second * 10, second * 10 + 10);
      await with_.send(
        ...now.map((noticeId) =>
          aNotice({ noticeId, severity: "plan", text: noticeId, createdAtMs: atMs, dueAtMs: atMs }),
        ),
      );
      await with_.pass(1_000);
    }
    await with_.pass(12 * minuteMs, 10_000);
    const all = heard(receiver);
    const alone = all.filter(({ why }) => why === "raised");
    const digests = all.filter(({ why }) => why === "digest");
    expect(alone).toHaveLength(10);
    expect(digests.length).toBeLessThanOrEqual(3);
    const gathered = digests.map(({ text }) => Number(/^\d+/.exec(text)?.[0]));
    expect(gathered.reduce((sum, count) => sum + count, 0)).toBe(490);
    const ends = await Promise.all(noticeIds.map((noticeId) => ended(with_, noticeId)));
    expect(ends.filter((end) => end === "told")).toHaveLength(10);
    expect(ends.filter((end) => end === "digested")).toHaveLength(490);
  }, 120_000);

  it("lets a test and the first now of a booth through", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    const plans = Array.from({ length: 12 }, () => aNotice({ severity: "plan", text: "plan" }));
    await with_.send(...plans);
    expect(texts(receiver)).toHaveLength(10);
    await with_.send(aNotice({ text: "jam" }), aNotice({ text: "jam again" }));
    await with_.send(aNotice({ text: "test", why: "test", severity: "note", toPersonId: "ama" }));
    expect(texts(receiver).slice(10)).toEqual(["jam", "test"]);
    await with_.pass(30_000);
    expect(texts(receiver).slice(12)).toEqual(["3 alerts at one booth, 1 now. First: jam again"]);
  });

  it("leaves out of its digest what is over by then", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    for (const alertId of ["a", "b"]) await keepAlert(with_, alertId);
    const plans = Array.from({ length: 11 }, () => aNotice({ severity: "plan" }));
    await with_.send(
      ...plans,
      ...["a", "b"].map((alertId) => aNotice({ alertId, severity: "plan", text: alertId })),
    );
    await keepAlert(with_, "b", {}, sixAtMs + 1);
    await with_.pass(30_000);
    expect(texts(receiver).at(-1)).toMatch(/^2 alerts at one booth/);
  });
});

describe("quiet hours", () => {
  /** Six in London in summer is seven: quiet from 17:30 to 23:00 there. */
  async function inQuietHours() {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    const quietHours = { from: "17:30", to: "23:00", zone: "Europe/London" };
    await saveNoticeSettings(
      with_.store.settings,
      "ama",
      { ...noticeSettings.parse({}), quietHours },
      sixAtMs,
    );
    return { receiver, with_ };
  }

  it("hold everything but now back until they end, and say it then in one", async () => {
    const { receiver, with_ } = await inQuietHours();
    await with_.send(
      aNotice({ severity: "plan", text: "roll" }),
      aNotice({ severity: "note", text: "sun" }),
      aNotice(),
    );
    expect(texts(receiver)).toEqual(["Juniper's printer is jammed: clear it."]);
    await with_.pass(4 * hourMs - 10_000, 600_000);
    expect(texts(receiver).slice(1)).toEqual(["2 alerts at one booth. First: roll"]);
  });

  it("let one alone out as it is, still about its alert", async () => {
    const { receiver, with_ } = await inQuietHours();
    await keepAlert(with_, "low");
    await with_.send(aNotice({ severity: "plan", text: "roll", alertId: "low" }));
    await with_.pass(4 * hourMs, 600_000);
    expect(texts(receiver)).toEqual(["roll"]);
    const told = await with_.store.notices.ofAlerts(["low"]);
    expect(told.map(({ why, state }) => [why, state])).toEqual([
      ["raised", "digested"],
      ["digest", "taken"],
    ]);
  });

  it("are one owner's own, and survive a restart", async () => {
    const { receiver, with_ } = await inQuietHours();
    await with_.send(aNotice({ severity: "plan", text: "roll" }));
    const again = await with_.reopen();
    await again.pass(4 * hourMs, 600_000);
    expect(texts(receiver)).toEqual(["roll"]);
  });
});
