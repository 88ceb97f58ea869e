import { v7 } from "uuid";
import { useState } from "preact/hooks";
import { done } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";

/**
 * Sends lines for the ledger. A line keeps its key until it is taken, so that one sent again after a lost answer
 * counts once.
 */
export function useStockLine(changed: () => void) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [onceKey, setOnceKey] = useState(() => v7());
  const write = async (address: string, body: object): Promise<boolean> => {
    const taken = await send(() => page.call("POST", address, done, { onceKey, ...body }));
    if (taken === null) return false;
    setOnceKey(v7());
    changed();
    return true;
  };
  return { refusal, isBusy, write };
}
