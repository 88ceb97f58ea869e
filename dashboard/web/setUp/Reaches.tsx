import type { ReachView } from "@boothward/shared-types/told";
import { useState } from "preact/hooks";
import { CopyButton } from "../parts/CopyButton.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { done } from "../state/api.ts";
import { reachList } from "../state/alertShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { formatOf } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { reaches as words } from "../words/en/people.ts";
import { ReachForm } from "./ReachForm.tsx";
import "../styles/people.css";

/** By what this person is reached: each with how it does, and a form for one more. */
export function Reaches() {
  const { answer, refusal, again } = useAnswer("/api/reaches", reachList);
  const [isAdding, setAdding] = useState(false);
  const [secret, setSecret] = useState<string | null>(null);
  const added = (told: string | null) => {
    setAdding(false);
    setSecret(told);
    void again();
  };
  return (
    <section class="sheet people" id="ways">
      <h2>{words.title}</h2>
      <FormRefusal refusal={refusal} shown={[]} />
      {answer?.reaches.length === 0 && <p class="small">{words.none}</p>}
      {answer?.reaches.map((reach) => (
        <ReachEntry key={reach.reachId} reach={reach} changed={() => void again()} />
      ))}
      {secret !== null && (
        <div role="status">
          <p>{words.secret}</p>
          <p class="cap">
            <code>{secret}</code>
          </p>
          <CopyButton text={secret} word={words.copySecret} />
        </div>
      )}
      {isAdding ? (
        <ReachForm added={added} cancel={() => setAdding(false)} />
      ) : (
        <div class="row">
          <button type="button" class="btn" onClick={() => setAdding(true)}>
            {words.add}
          </button>
        </div>
      )}
    </section>
  );
}

function ReachEntry({ reach, changed }: { reach: ReachView; changed: () => void }) {
  const page = usePage();
  const { refusal, send } = useSend();
  const takeOut = async () => {
    const address = `/api/reaches/${encodeURIComponent(reach.reachId)}`;
    if ((await send(() => page.call("DELETE", address, done))) !== null) changed();
  };
  return (
    <div class="person">
      <p>
        <b>{reach.label}</b> {words.entry(words.way[reach.way], reach.to)}
      </p>
      <p class={`small ${reach.troubleFromAtMs === null ? "" : "wrong-way"}`}>{stateText(reach)}</p>
      <FormRefusal refusal={refusal} shown={[]} />
      <TwoTaps
        word={words.takeOut}
        ask={words.takeOutAsk(reach.label)}
        yes={words.takeOutYes}
        no={words.takeOutNo}
        act={() => void takeOut()}
      />
    </div>
  );
}

function stateText({ troubleFromAtMs, lastTakenAtMs, lastSaid }: ReachView): string {
  const format = formatOf(null);
  const at = (atMs: number) => `${format.day(atMs)}, ${format.clock(atMs)}`;
  if (troubleFromAtMs !== null) return words.trouble(at(troubleFromAtMs), lastSaid);
  return lastTakenAtMs === null ? words.fresh : words.well(at(lastTakenAtMs));
}
