import { describe, expect, it } from "vitest";
import { saveNoticeSettings } from "../../../dashboard/notify/noticeSettings.ts";
import { noticeSettings } from "@boothward/shared-types";
import { aNotifier } from "../../support/aNotifier.ts";
import { aReceiver } from "../../support/aReceiver.ts";
import { texts } from "../../support/heardNotices.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

describe("the address that watches over the dashboard", () => {
  async function watched(everyMin = 5) {
    const [watch, hook] = [await aReceiver(200), await aReceiver()];
    const with_ = await aNotifier();
    await with_.hook(hook.url);
    const ping = { url: watch.url, everyMin };
    await saveNoticeSettings(with_.store.settings, "ama", { ...noticeSettings.parse({}), ping }, sixAtMs);
    return { watch, hook, with_ };
  }

  it("is called at once and then each few minutes", async () => {
    const { watch, with_ } = await watched();
    await with_.pass(16 * minuteMs, 10_000);
    expect(watch.calls.map(({ method }) => method)).toEqual(["GET", "GET", "GET", "GET"]);
  });

  it("that cannot be called twice running is said once", async () => {
    const { watch, hook, with_ } = await watched();
    watch.answer(500);
    await with_.pass(4 * minuteMs, 10_000);
    expect(texts(hook)).toEqual([]);
    await with_.pass(26 * minuteMs, 10_000);
    expect(texts(hook)).toEqual([
      "The address that watches over this dashboard cannot be called: it answered 500.",
    ]);
  });

  it("is not called in the tick in which the clock jumped", async () => {
    const { watch, with_ } = await watched(1);
    await with_.pass(10_000, 10_000);
    expect(watch.calls).toHaveLength(1);
    with_.time.pass(59_000);
    with_.time.stepWall(hourMs);
    await with_.pass(1_000);
    expect(watch.calls).toHaveLength(1);
    await with_.pass(1_000);
    expect(watch.calls).toHaveLength(2);
  });
});
