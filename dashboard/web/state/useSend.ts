import { useState } from "preact/hooks";
import type { Answer, Refusal } from "./api.ts";

/** Sending of one form: whether it is under way, and what was refused. `send` gives the answer, null if refused. */
export function useSend() {
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setBusy] = useState(false);
  const send = async <T>(call: () => Promise<Answer<T>>): Promise<T | null> => {
    setBusy(true);
    const answer = await call();
    setBusy(false);
    setRefusal("refusal" in answer ? answer.refusal : null);
    return "value" in answer ? answer.value : null;
  };
  return { refusal, isBusy, send };
}
