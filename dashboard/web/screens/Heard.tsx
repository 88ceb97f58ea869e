import { useEffect, useRef, useState } from "preact/hooks";
import { Frame, Mark } from "../parts/Frame.tsx";
import { done } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { reach } from "../words/en/reach.ts";

const words = reach.heard;

/** Where a test alert leads: opening it tells the dashboard that it came. */
export function Heard() {
  const page = usePage();
  const code = useRef(new URLSearchParams(page.takeFragment()));
  const [is, setIs] = useState<"asking" | "told" | "failed">("asking");
  const body = { deliveryId: code.current.get("delivery"), secret: code.current.get("secret") };
  const isWhole = body.deliveryId !== null && body.secret !== null;
  useEffect(() => {
    if (!isWhole) return;
    void page
      .call("POST", "/api/arrivals", done, body)
      .then((came) => setIs("value" in came ? "told" : "failed"));
  }, []);
  const sentences = { asking: words.asking, told: words.more, failed: words.failed };
  return (
    <Frame title={words.title} bar={<Mark />} isBare>
      <div class="verdict" role="status">
        <h1 tabIndex={-1}>{words.title}</h1>
        <p>{isWhole ? sentences[is] : words.noCode}</p>
      </div>
    </Frame>
  );
}
