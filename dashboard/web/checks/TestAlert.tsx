import { useState } from "preact/hooks";
import { FormRefusal } from "../parts/Field.tsx";
import { done } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";
import { checks as words } from "../words/en/checks.ts";

/** Sends the person a test alert by every way that is theirs. */
export function TestAlert() {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [isSent, setSent] = useState(false);
  const sendOne = async () =>
    setSent((await send(() => page.call("POST", "/api/test-alert", done, {}))) !== null);
  return (
    <>
      <button type="button" class="btn" disabled={isBusy} onClick={() => void sendOne()}>
        {words.tryAlert}
      </button>
      <small role="status">{isSent && words.tried}</small>
      <FormRefusal refusal={refusal} shown={[]} />
    </>
  );
}
