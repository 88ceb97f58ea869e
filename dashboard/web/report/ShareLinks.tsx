import * as z from "zod/mini";
import { CopyButton } from "../parts/CopyButton.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { done } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { formatOf } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { report as words } from "../words/en/reports.ts";

const linkList = z.object({
  links: z.array(
    z.object({ linkId: z.string(), madeBy: z.string(), createdAtMs: z.number(), path: z.string() }),
  ),
});

/** The links by which a client reads the report: to be made, copied, ended. */
export function ShareLinks({ bookingId }: { bookingId: string }) {
  const page = usePage();
  const address = `/api/bookings/${encodeURIComponent(bookingId)}/report-links`;
  const { answer, refusal: notHad, again } = useAnswer(address, linkList);
  const { refusal, isBusy, send } = useSend();
  const format = formatOf(null);
  const change = async (method: "POST" | "DELETE", to: string) => {
    if ((await send(() => page.call(method, to, done))) !== null) await again();
  };
  return (
    <section class="sheet">
      <h2>{words.share}</h2>
      <p class="small">{words.shareLead}</p>
      <FormRefusal refusal={refusal ?? notHad} shown={[]} />
      {answer?.links.map(({ linkId, madeBy, createdAtMs, path }) => (
        <div key={linkId}>
          <p class="cap">
            <code>{page.origin + path}</code>
          </p>
          <p class="small">
            {words.shareBy(madeBy, `${format.day(createdAtMs)}, ${format.clock(createdAtMs)}`)}
          </p>
          <div class="row">
            <CopyButton text={page.origin + path} word={words.shareCopy} isMain />
            <TwoTaps
              word={words.shareEnd}
              ask={words.shareEndAsk}
              yes={words.shareEndYes}
              no={words.shareEndNo}
              act={() => void change("DELETE", `/api/report-links/${encodeURIComponent(linkId)}`)}
            />
          </div>
        </div>
      ))}
      <div class="row">
        <button type="button" class="btn" disabled={isBusy} onClick={() => void change("POST", address)}>
          {words.shareMake}
        </button>
      </div>
    </section>
  );
}
