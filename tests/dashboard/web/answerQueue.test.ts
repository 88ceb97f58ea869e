import { describe, expect, it } from "vitest";
import { hasKeptAnswers, openAnswerQueue } from "../../../dashboard/web/answers/answerQueue.ts";
import type { Said, Sent } from "../../../dashboard/web/answers/answerQueue.ts";
import { aStorage } from "../../support/aStorage.ts";
import { eveningAtMs, hourMs } from "../../support/aBoothView.ts";

/** A queue on this storage whose sending is in the test's hand. */
function aQueue(kept = aStorage(), first: Sent = "taken") {
  const sent: Said[] = [];
  const world = { answer: first };
  let ids = 0;
  const queue = openAnswerQueue({
    kept,
    newId: () => `id-${(ids += 1)}`,
    send: (said) => {
      sent.push(said);
      return Promise.resolve(world.answer);
    },
  });
  return { queue, sent, world, kept };
}

const waitingIn = ({ queue }: ReturnType<typeof aQueue>) =>
  queue.waiting.value.map(({ alertId, answer }) => `${alertId} ${answer}`);

describe("the queue of presses", () => {
  it("sends a press at once and forgets it when it is taken", async () => {
    const its = aQueue();
    its.queue.say("a", "take", eveningAtMs);
    expect(waitingIn(its)).toEqual(["a take"]);
    await its.queue.flush(eveningAtMs);
    expect(waitingIn(its)).toEqual([]);
    expect(its.sent).toEqual([{ alertId: "a", answer: "take", sayId: "id-1", saidAtMs: eveningAtMs }]);
    expect(hasKeptAnswers(its.kept)).toBe(false);
  });

  it("keeps what does not get through, on the device, and sends it in order with the same ids", async () => {
    const its = aQueue(aStorage(), "later");
    its.queue.say("a", "take", eveningAtMs);
    its.queue.say("b", "later", eveningAtMs + 1);
    its.queue.say("a", "done", eveningAtMs + 2);
    await its.queue.flush(eveningAtMs);
    const again = aQueue(its.kept);
    expect(waitingIn(again)).toEqual(["a take", "b later", "a done"]);
    await again.queue.flush(eveningAtMs + 60_000);
    expect(again.sent.map(({ sayId }) => sayId)).toEqual(["id-1", "id-2", "id-3"]);
    expect(waitingIn(again)).toEqual([]);
  });

  it("stops at the first that does not get through: what was pressed later is not sent before it", async () => {
    const its = aQueue(aStorage(), "later");
    its.queue.say("a", "take", eveningAtMs);
    its.queue.say("a", "done", eveningAtMs);
    await its.queue.flush(eveningAtMs);
    expect(new Set(its.sent.map(({ answer }) => answer))).toEqual(new Set(["take"]));
  });

  it("takes two presses of one button for one while the first waits", async () => {
    const its = aQueue(aStorage(), "later");
    its.queue.say("a", "done", eveningAtMs);
    its.queue.say("a", "done", eveningAtMs + 400);
    await its.queue.flush(eveningAtMs);
    its.world.answer = "taken";
    its.sent.length = 0;
    await its.queue.flush(eveningAtMs);
    expect(its.sent).toHaveLength(1);
  });

  it("lets go of what is refused for good, says so, and goes on with the next", async () => {
    const refusal = { error: "noSuchAlert", sentence: "There is no such alert.", field: null };
    const its = aQueue(aStorage(), { refusal });
    its.queue.say("a", "take", eveningAtMs);
    await its.queue.flush(eveningAtMs);
    expect(its.queue.refused.value).toEqual({ alertId: "a", refusal });
    expect(waitingIn(its)).toEqual([]);
    its.world.answer = "taken";
    its.queue.say("b", "take", eveningAtMs);
    expect(its.queue.refused.value).toBeNull();
  });

  it("lets go of what is older than an evening, and of what it cannot read", async () => {
    const its = aQueue(aStorage(), "later");
    its.queue.say("a", "take", eveningAtMs);
    await its.queue.flush(eveningAtMs + 13 * hourMs);
    expect(waitingIn(its)).toEqual([]);
    expect(waitingIn(aQueue(aStorage({ answers: '[{"alertId":7}]' })))).toEqual([]);
    expect(waitingIn(aQueue(aStorage({ answers: "{" })))).toEqual([]);
  });
});
