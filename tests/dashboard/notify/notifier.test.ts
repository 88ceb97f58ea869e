import { describe, expect, it } from "vitest";
import { chooseStarts, sendLimits } from "../../../dashboard/notify/chooseStarts.ts";
import { ama, aNotifier } from "../../support/aNotifier.ts";
import { aNotice } from "../../support/aMessage.ts";
import { aReceiver } from "../../support/aReceiver.ts";
import { ended, keepAlert, texts } from "../../support/heardNotices.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

describe("a notice", () => {
  it("goes once to each way of each owner, and is told", async () => {
    const [one, two] = [await aReceiver(), await aReceiver()];
    const with_ = await aNotifier();
    await with_.hook(one.url, "one");
    await with_.hook(two.url, "two");
    await with_.send(aNotice({ noticeId: "jam" }), aNotice({ noticeId: "again", onceKey: "jam" }));
    await with_.pass(minuteMs, 10_000);
    expect([texts(one), texts(two)]).toEqual([
      ["Juniper's printer is jammed: clear it."],
      ["Juniper's printer is jammed: clear it."],
    ]);
    expect(await ended(with_, "jam")).toBe("told");
    const [told] = await with_.store.notices.ofNotice("jam");
    expect(told).toMatchObject({ way: "webhook", label: "one", state: "taken", takenAtMs: sixAtMs });
  });

  it("for nobody ends as such", async () => {
    const with_ = await aNotifier();
    await with_.send(aNotice({ noticeId: "jam" }), aNotice({ noticeId: "other", toRole: "attendant" }));
    expect([await ended(with_, "jam"), await ended(with_, "other")]).toEqual(["nobody", "nobody"]);
  });

  it("goes to the attendants whose pass holds for its booking, and to no other", async () => {
    const [kofi, lena, past] = [await aReceiver(), await aReceiver(), await aReceiver()];
    const with_ = await aNotifier();
    for (const [passId, bookingId, endsAtMs, { url }] of [
      ["kofi", "wedding", sixAtMs + hourMs, kofi],
      ["lena", "gala", sixAtMs + hourMs, lena],
      ["past", "wedding", sixAtMs, past],
    ] as const) {
      const pass = { passId, tokenHash: passId, name: passId, bookingIds: [bookingId], madeBy: "ama" };
      await with_.store.passes.add({ ...pass, createdAtMs: 0, endsAtMs });
      const reach = { reachId: `way of ${passId}`, way: "webhook" as const, label: passId, createdAtMs: 0 };
      const body = { url, secret: "whsec_AAAA" };
      await with_.store.reaches.add({ ...reach, body }, { role: "attendant", personId: passId }, 10);
    }
    await with_.send(aNotice({ toRole: "attendant", bookingId: "wedding" }));
    expect([texts(kofi).length, texts(lena).length, texts(past).length]).toEqual([1, 0, 0]);
  });

  it("of an alert that was cleared or answered since is not sent", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    await keepAlert(with_, "cleared", {}, sixAtMs);
    await keepAlert(with_, "taken", { taken: { by: "Ama", atMs: sixAtMs } });
    await keepAlert(with_, "done", { doneAtMs: sixAtMs + 1 });
    await keepAlert(with_, "worse", { taken: { by: "Ama", atMs: sixAtMs - 1 } });
    const about = (alertId: string) => aNotice({ noticeId: alertId, alertId, text: alertId });
    await with_.send(...["cleared", "taken", "done", "worse", "unknown"].map(about));
    expect(texts(receiver)).toEqual(["worse"]);
    expect(await ended(with_, "cleared")).toBe("over");
    expect(await ended(with_, "unknown")).toBe("over");
    expect((await with_.store.notices.ofAlerts(["taken", "worse"])).map(({ state }) => state)).toEqual([
      ...["over", "taken"],
    ]);
  });

  it("that could not be sent at first is not sent any more once its alert is over", async () => {
    const receiver = await aReceiver(503);
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    await keepAlert(with_, "jam");
    await with_.send(aNotice({ noticeId: "jam", alertId: "jam" }));
    await keepAlert(with_, "jam", {}, sixAtMs + 1_000);
    receiver.answer(201);
    await with_.pass(10_000);
    expect(receiver.calls).toHaveLength(1);
    expect(await ended(with_, "jam")).toBe("over");
  });

  it("that is found long after it was due is not sent late", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    const dueAtMs = sixAtMs - 31 * minuteMs;
    await with_.send(
      aNotice({ noticeId: "late", dueAtMs }),
      aNotice({ text: "soon", severity: "plan", dueAtMs }),
    );
    expect(texts(receiver)).toEqual(["soon"]);
    expect(await ended(with_, "late")).toBe("expired");
  });

  it("waits until it is due", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    await with_.send(aNotice({ dueAtMs: sixAtMs + 2_500 }));
    await with_.pass(2_000);
    expect(receiver.calls).toHaveLength(0);
    await with_.pass(1_000);
    expect(receiver.calls).toHaveLength(1);
  });
});

describe("a way that fails", () => {
  it("is tried ever more seldom for half an hour, then given up, and the owner is told once by another way", async () => {
    const [broken, working] = [await aReceiver(500), await aReceiver()];
    const with_ = await aNotifier();
    await with_.hook(broken.url, "broken");
    await with_.hook(working.url, "working");
    await with_.send(aNotice({ noticeId: "jam", text: "jam" }));
    await with_.pass(hourMs, 5_000);
    // 2 s doubled up to 5 minutes at three quarters: 1.5, 3, 6, 12, 24, 48, 96, 192, then each 225 s, to 30 min.
    expect(broken.calls.length).toBeGreaterThanOrEqual(12);
    expect(broken.calls.length).toBeLessThanOrEqual(16);
    expect(new Set(broken.calls.map(({ headers }) => headers["webhook-id"])).size).toBe(1);
    expect(texts(working)).toEqual(["jam", "Alerts do not reach Ama by webhook (broken): it answered 500."]);
    const states = (await with_.store.notices.ofNotice("jam")).map(({ label, state }) => [label, state]);
    expect(states).toEqual([
      ["broken", "expired"],
      ["working", "taken"],
    ]);
    // Another hour, another alert: the same spell of trouble is not said again.
    await with_.send(aNotice({ text: "empty", createdAtMs: sixAtMs + hourMs, dueAtMs: sixAtMs + hourMs }));
    await with_.pass(hourMs, 10_000);
    expect(texts(working).filter((text) => text.startsWith("Alerts do not reach"))).toHaveLength(1);
    // It works again: a later failure is a new one.
    broken.answer(201);
    const atMs = sixAtMs + 2 * hourMs;
    await with_.send(aNotice({ createdAtMs: atMs, dueAtMs: atMs }));
    const ways = await with_.store.reaches.ofPerson(ama);
    expect(ways.map(({ troubleFromAtMs }) => troubleFromAtMs)).toEqual([null, null]);
  }, 120_000);

  it("gets the notice as soon as it works again", async () => {
    const receiver = await aReceiver(500);
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    await with_.send(aNotice({ noticeId: "jam" }));
    await with_.pass(2 * minuteMs, 5_000);
    receiver.answer(201);
    await with_.pass(4 * minuteMs, 5_000);
    expect(await ended(with_, "jam")).toBe("told");
    const before = receiver.calls.length;
    await with_.pass(4 * minuteMs, 5_000);
    expect(receiver.calls).toHaveLength(before);
  });

  it("is not called again before the time it asked for", async () => {
    const receiver = await aReceiver({ status: 429, headers: { "retry-after": "60" } });
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    await with_.send(aNotice());
    await with_.pass(59_000);
    expect(receiver.calls).toHaveLength(1);
    await with_.pass(2_000);
    expect(receiver.calls).toHaveLength(2);
  });

  it("that is gone is taken out, with all that waited for it", async () => {
    const receiver = await aReceiver(410);
    const with_ = await aNotifier();
    await with_.hook(receiver.url);
    await with_.send(aNotice({ noticeId: "one" }), aNotice({ noticeId: "two" }));
    expect(receiver.calls).toHaveLength(1);
    expect(await with_.store.reaches.ofPerson(ama)).toEqual([]);
    expect([await ended(with_, "one"), await ended(with_, "two")]).toEqual(["nobody", "nobody"]);
  });

  it("that hangs holds no other up", async () => {
    const [slow, quick] = [await aReceiver("nothing"), await aReceiver()];
    const with_ = await aNotifier({ mostMs: 1_500 });
    await with_.hook(slow.url, "slow");
    await with_.hook(quick.url, "quick");
    await with_.store.notices.add([
      aNotice({ text: "one" }),
      aNotice({ text: "two" }),
      aNotice({ text: "three" }),
    ]);
    let isSettled = false;
    const sending = with_.notifier
      .tick()
      .then(() => with_.notifier.settled())
      .then(() => (isSettled = true));
    await expect.poll(() => texts(quick).sort()).toEqual(["one", "three", "two"]);
    expect(isSettled).toBe(false);
    await sending;
  });

  it("is begun one at a time, after those that work, and few of one person", () => {
    const waiting = (deliveryId: string, reachId: string, personId: string, isTroubled = false) => ({
      ...{ deliveryId, reachId, personId, isTroubled },
    });
    const all = [
      waiting("1", "a", "ama", true),
      waiting("2", "b", "ama"),
      waiting("3", "b", "ama"),
      waiting("4", "c", "kofi", true),
      waiting("5", "d", "kofi", true),
      ...["e", "f", "g", "h"].map((reachId) => waiting(reachId, reachId, "lena")),
    ];
    expect(chooseStarts(all, [], sendLimits).map(({ deliveryId }) => deliveryId)).toEqual([
      ...["2", "e", "f", "g", "1", "4"],
    ]);
    expect(chooseStarts(all, [], { ...sendLimits, all: 2 })).toHaveLength(2);
    expect(
      chooseStarts(all, [waiting("0", "b", "ama")], sendLimits).map(({ deliveryId }) => deliveryId),
    ).not.toContain("2");
  });
});

describe("a restart", () => {
  it("between making the deliveries and sending them loses and doubles nothing", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    const reachId = await with_.hook(receiver.url);
    const { store } = with_;
    // As a killed process leaves it: spread and committed, nothing sent.
    await store.notices.add([aNotice({ noticeId: "jam" })]);
    const delivery = { deliveryId: "d-1", noticeId: "jam", reachId, arrivalHash: "", nextTryAtMs: sixAtMs };
    await store.notices.spread(
      [{ noticeId: "jam", ended: null }],
      [{ ...delivery, state: "waiting" }],
      sixAtMs,
    );
    const again = await with_.reopen();
    await again.pass(5_000);
    expect(receiver.calls.map(({ headers }) => headers["webhook-id"])).toEqual(["d-1"]);
    const third = await again.reopen();
    await third.pass(5_000);
    expect(receiver.calls).toHaveLength(1);
    expect(await ended(third, "jam")).toBe("told");
  });

  it("after sending and before that was kept sends the same again, to be known by its id", async () => {
    const receiver = await aReceiver();
    const with_ = await aNotifier();
    const reachId = await with_.hook(receiver.url);
    await with_.send(aNotice({ noticeId: "jam" }));
    // As a kill between the answer and the commit leaves it.
    const [told] = await with_.store.notices.ofNotice("jam");
    const deliveryId = told?.deliveryId ?? "";
    const lost = {
      deliveryId,
      noticeId: "jam",
      reachId,
      state: "waiting" as const,
      tries: 0,
      nextTryAtMs: sixAtMs,
    };
    await with_.store.deliveries.saveOutcome({ ...lost, said: null, reach: "untried", own: [] }, sixAtMs);
    const again = await with_.reopen();
    await again.pass(2_000);
    const ids = receiver.calls.map(({ headers }) => headers["webhook-id"]);
    expect(ids).toEqual([deliveryId, deliveryId]);
  });

  it("keeps the key that browsers subscribed with", async () => {
    const with_ = await aNotifier();
    const { pushKey } = with_.notifier;
    expect(Buffer.from(pushKey, "base64url")).toHaveLength(65);
    expect((await with_.reopen()).notifier.pushKey).toBe(pushKey);
  });
});
