import { boothEvening } from "@boothward/shared-types/view";
import type { BoothEvening, BoothView } from "@boothward/shared-types/view";
import { useEffect, useState } from "preact/hooks";
import { usePage } from "./pageContext.ts";
import { nowMs } from "./signals.ts";

/** More of a booth's evening: asked when its page is opened, when a session is counted and each minute. */
export function useEvening(booth: BoothView): BoothEvening | null {
  const page = usePage();
  const [evening, setEvening] = useState<BoothEvening | null>(null);
  const minute = Math.floor(nowMs.value / 60_000);
  useEffect(() => {
    let isWanted = true;
    const address = `/api/booths/${encodeURIComponent(booth.boothId)}/evening`;
    void page.call("GET", address, boothEvening).then((answer) => {
      if (isWanted && "value" in answer) setEvening(answer.value);
    });
    return () => {
      isWanted = false;
    };
  }, [booth.boothId, booth.counts.sessions, minute]);
  return evening;
}
