import { useState } from "preact/hooks";
import { BoothForm } from "../parts/BoothForm.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { PairingSteps } from "../parts/PairingSteps.tsx";
import { Roll } from "../parts/Roll.tsx";
import { pairingCode } from "../state/apiShapes.ts";
import type { PairingCode } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { booths, formatOf } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { pairing as words } from "../words/en/setUp.ts";

/** Today before any booth was heard: name one, pair its computer with the code that is shown right here. */
export function FirstSteps() {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [code, setCode] = useState<PairingCode | null>(null);
  const showCode = async (boothId: string) => {
    const address = `/api/booths/${encodeURIComponent(boothId)}/pairing-codes`;
    setCode(await send(() => page.call("POST", address, pairingCode)));
  };
  return (
    <div class="cols">
      <section class="sheet">
        <h2>{words.first}</h2>
        {code !== null && <PairingSteps code={code} format={formatOf(null)} />}
        {code === null && booths.value.length === 0 && (
          <>
            <p>{words.name}</p>
            <br />
            <BoothForm booth={null} done={(boothId) => void showCode(boothId)} cancel={null} />
          </>
        )}
        {code === null && (
          <div class="row">
            {booths.value.map((booth) => (
              <button
                type="button"
                key={booth.boothId}
                class="btn main"
                disabled={isBusy}
                onClick={() => void showCode(booth.boothId)}
              >
                {words.show(booth.name)}
              </button>
            ))}
          </div>
        )}
        <FormRefusal refusal={refusal} shown={[]} />
      </section>
      <section class="sheet bare">
        <div class="sample" aria-hidden="true">
          <Roll left={null} kit={1} isOld label="" sizePx={58} />
          <svg viewBox="0 0 258 54" class="strip blank">
            <path class="ground" d="M1 2h254v50H1l3-10-3-10 3-10-3-10z" />
          </svg>
        </div>
        <p class="cap">{words.picture}</p>
      </section>
    </div>
  );
}
