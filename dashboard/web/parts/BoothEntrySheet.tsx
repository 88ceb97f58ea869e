import { useState } from "preact/hooks";
import { done } from "../state/api.ts";
import { pairingCode } from "../state/apiShapes.ts";
import type { BoothEntry, PairingCode } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { formatOf, nowMs } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { setUp as words } from "../words/en/setUp.ts";
import type { Format } from "../../alerts/format.ts";
import { BoothForm } from "./BoothForm.tsx";
import { FormRefusal } from "./Field.tsx";
import { PairingSteps } from "./PairingSteps.tsx";
import { TwoTaps } from "./TwoTaps.tsx";

/** A booth in Set-up: what it is, its computer, a pairing code for it. */
export function BoothEntrySheet({ booth, changed }: { booth: BoothEntry; changed: () => void }) {
  const page = usePage();
  const format = formatOf(null);
  const { refusal, isBusy, send } = useSend();
  const [code, setCode] = useState<PairingCode | null>(null);
  const [isChanging, setChanging] = useState(false);
  const { agent } = booth;

  const showCode = async () => {
    const address = `/api/booths/${encodeURIComponent(booth.boothId)}/pairing-codes`;
    setCode(await send(() => page.call("POST", address, pairingCode)));
  };
  const unpair = async (agentId: string) => {
    const address = `/api/agents/${encodeURIComponent(agentId)}/revoke`;
    if ((await send(() => page.call("POST", address, done))) !== null) changed();
  };

  if (isChanging)
    return (
      <section class="sheet">
        <BoothForm
          booth={booth}
          done={() => {
            setChanging(false);
            changed();
          }}
          cancel={() => setChanging(false)}
        />
      </section>
    );
  return (
    <section class="sheet entry">
      <h2>{booth.name}</h2>
      <p class="small">
        {words.kit(format.count(booth.kitSheets), format.temperature(booth.limitC))}
        {booth.isTrailer && `, ${words.trailer}`}
      </p>
      <p>
        {agent === null
          ? words.noComputer
          : `${words.computer(agent.hostName, pairedSince(agent.pairedAtMs, format))}, ${agent.isLinked ? words.linked : words.unlinked}.`}
      </p>
      {code !== null && <PairingSteps code={code} format={format} />}
      <FormRefusal refusal={refusal} shown={[]} />
      <div class="row">
        {code === null && (
          <button
            type="button"
            class={`btn ${agent === null ? "main" : ""}`}
            disabled={isBusy}
            onClick={() => void showCode()}
          >
            {agent === null ? words.pair : words.pairOther}
          </button>
        )}
        <button type="button" class="btn" onClick={() => setChanging(true)}>
          {words.change}
        </button>
        {agent !== null && (
          <TwoTaps
            word={words.unpair}
            ask={words.unpairAsk(agent.hostName, booth.name)}
            yes={words.unpairYes}
            no={words.unpairNo}
            act={() => void unpair(agent.agentId)}
          />
        )}
      </div>
    </section>
  );
}

/** The time of a pairing of today, the day of an older one. */
function pairedSince(atMs: number, format: Format): string {
  return nowMs.value - atMs < 12 * 3_600_000 ? format.clock(atMs) : format.day(atMs);
}
