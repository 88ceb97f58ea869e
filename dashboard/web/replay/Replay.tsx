import { replayView } from "@boothward/shared-types/replayView";
import { AsTable } from "../parts/AsTable.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { units } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { replay as words } from "../words/en/replay.ts";
import { formatIn } from "../../alerts/format.ts";
import { ReplayCurve } from "./ReplayCurve.tsx";
import { replayRows, replaySentences } from "./replayWords.ts";

/** How the forecast would have done at an evening that is over: its sentence, its picture, and a table. */
export function Replay({ bookingId }: { bookingId: string }) {
  const { answer: view, refusal } = useAnswer(
    `/api/bookings/${encodeURIComponent(bookingId)}/replay`,
    replayView,
  );
  if (refusal !== null) return <FormRefusal refusal={refusal} shown={[]} />;
  if (view === null) return <p role="status">{words.asking}</p>;
  const format = formatIn(view.zone, units.value);
  const { verdict, more } = replaySentences(view, format);
  return (
    <div class="replay">
      <p class="do" role="status">
        {verdict}
      </p>
      <p>{more}</p>
      {view.asks.length > 0 && (
        <>
          <ReplayCurve view={view} format={format} label={`${words.label} ${verdict}`} />
          <p class="cap small">{words.cap(format.count(view.sheetsUsed))}</p>
          <AsTable columns={words.columns} rows={replayRows(view, format)} />
        </>
      )}
    </div>
  );
}
