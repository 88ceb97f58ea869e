import type { PairingCode } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { nowMs } from "../state/signals.ts";
import { pairing as words } from "../words/en/setUp.ts";
import type { Format } from "../../alerts/format.ts";
import { CopyButton } from "./CopyButton.tsx";

/** How the computer at a booth is paired with a code that was just made. */
export function PairingSteps({ code, format }: { code: PairingCode; format: Format }) {
  const { origin } = usePage();
  const line = `agent pair --config agent.yaml --dashboard ${origin} --code ${code.code.replace(" ", "")}`;
  const isOver = nowMs.value >= code.expiresAtMs;
  return (
    <>
      <ol class="steps">
        <li>
          <b>1</b>
          <span>
            {words.run}
            <br />
            <code>{line}</code>
          </span>
        </li>
        <li>
          <b>2</b>
          <span>
            {words.type}
            <div class="code">{code.code}</div>
            <span class="small">{isOver ? words.used : words.good(format.clock(code.expiresAtMs))}</span>
          </span>
        </li>
        <li>
          <b>3</b>
          <span>{words.appears}</span>
        </li>
      </ol>
      <div class="row">
        <CopyButton text={line} word={words.copy} isMain />
      </div>
    </>
  );
}
