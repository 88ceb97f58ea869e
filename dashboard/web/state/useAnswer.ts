import { useEffect, useState } from "preact/hooks";
import type * as z from "zod/mini";
import type { Refusal } from "./api.ts";
import { usePage } from "./pageContext.ts";

/** What the dashboard answers at an address; `again` asks anew. */
export function useAnswer<T>(address: string, shape: z.ZodMiniType<T>) {
  const page = usePage();
  const [answer, setAnswer] = useState<T | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const again = async () => {
    const came = await page.call("GET", address, shape);
    if ("value" in came) setAnswer(came.value);
    setRefusal("refusal" in came ? came.refusal : null);
  };
  useEffect(() => void again(), [address]);
  return { answer, refusal, again };
}
