import { useEffect, useState } from "preact/hooks";
import { FormRefusal } from "../parts/Field.tsx";
import { testBegun, testSeen } from "../state/alertShapes.ts";
import type { Delivery } from "../state/alertShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { nowMs } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { reach as words } from "../words/en/reach.ts";
import { testLines } from "./testLines.ts";

/** A way that says nothing for so long is given up on. */
const patienceMs = 30_000;
const askEveryMs = 1000;

type Test = { noticeId: string; atMs: number };

/** Sends this person a test by every way there is, and says when it came. */
export function TestMe() {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [test, setTest] = useState<Test | null>(null);
  const [deliveries, setDeliveries] = useState<readonly Delivery[] | null>(null);
  const begin = async () => {
    setDeliveries(null);
    const atMs = nowMs.value;
    const begun = await send(() => page.call("POST", "/api/test-alert", testBegun, {}));
    setTest(begun === null ? null : { noticeId: begun.noticeId, atMs });
  };
  const isOver = test !== null && nowMs.value - test.atMs > patienceMs;
  useEffect(() => {
    if (test === null) return;
    const ask = async () => {
      const address = `/api/test-alert/${encodeURIComponent(test.noticeId)}`;
      const came = await page.call("GET", address, testSeen);
      if ("value" in came) setDeliveries(came.value.deliveries);
    };
    void ask();
    const asking = window.setInterval(() => {
      if (nowMs.value - test.atMs > patienceMs) window.clearInterval(asking);
      else void ask();
    }, askEveryMs);
    return () => window.clearInterval(asking);
  }, [test]);
  return (
    <section class="sheet test-me">
      <h2>{words.testTitle}</h2>
      <FormRefusal refusal={refusal} shown={[]} />
      <button type="button" class="btn" disabled={isBusy} onClick={() => void begin()}>
        {words.test}
      </button>
      <div role="status">
        {test !== null && (
          <ul class="came">
            {testLines(deliveries, test.atMs, isOver).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </div>
    </section>
  );
}
