import { cordSize, powerPlan } from "@boothward/shared-types/power";
import type { PowerPlan } from "@boothward/shared-types/power";
import { useEffect, useRef, useState } from "preact/hooks";
import { powerSum } from "../../planning/powerSum.ts";
import { bookingBody } from "../parts/bookingBody.ts";
import { Choice, Field } from "../parts/Field.tsx";
import { mostRows, powerBody } from "../parts/planBody.ts";
import { readFields } from "../parts/readForm.ts";
import type { Written } from "../parts/readForm.ts";
import type { Refusal } from "../state/api.ts";
import { units } from "../state/signals.ts";
import { planForm as words, powerWords } from "../words/en/plan.ts";
import { lengthSign, shownLength } from "../words/lengths.ts";
import { PowerResult } from "./PowerResult.tsx";

const sources = ["mains", "generator", "battery"] as const;
const hourMs = 3_600_000;

/** Where the current comes from and what hangs on it, with the sum while it is written. */
export function PowerFields({ power, refusal }: { power: PowerPlan | null; refusal: Refusal | null }) {
  const box = useRef<HTMLDetailsElement>(null);
  const [source, setSource] = useState<string>(power?.source ?? "");
  const [size, setSize] = useState<string>(power?.cord?.size ?? usual().size);
  const [shown, setShown] = useState(Math.max(words.usual.length, power?.loads.length ?? 0));
  // What stands in the fields can be read once they are there, after a choice is made, and whenever something is written.
  const [written, setWritten] = useState<Written | null>(null);
  const read = () => setWritten(readFields(box.current?.closest("form") ?? null));
  useEffect(read, [source, size]);
  const isRefused = refusal?.field?.startsWith("power") === true;
  const text = (value: number | null | undefined) => (value == null ? "" : String(value));
  const cordM = power?.cord?.lengthM;
  const number = (name: string, label: string, value: string, hint?: string) => (
    <Field
      name={name}
      label={label}
      {...(hint === undefined ? {} : { hint })}
      inputmode="decimal"
      defaultValue={value}
      refusal={refusal}
    />
  );
  return (
    <details ref={box} onInput={read} {...(isRefused ? { open: true } : {})}>
      <summary>{words.power}</summary>
      <div class="more-fields">
        <Choice
          name="power.source"
          label={words.source}
          value={source}
          refusal={refusal}
          onChoose={setSource}
        >
          <option value="">{words.sourceNone}</option>
          {sources.map((each) => (
            <option key={each} value={each}>
              {powerWords.source[each]}
            </option>
          ))}
        </Choice>
        <div class="two">
          {number("power.volts", words.volts, text(power?.volts ?? usual().volts))}
          {number("power.breakerA", words.breaker, text(power?.breakerA), words.breakerHint)}
        </div>
        <div class="two">
          {number(
            "power.cord.lengthM",
            words.cordLength(lengthSign(units.value)),
            cordM === undefined ? "" : text(shownLength(cordM, units.value)),
            words.cordHint,
          )}
          <Choice
            name="power.cord.size"
            label={words.cordSize}
            value={size}
            refusal={refusal}
            onChoose={setSize}
          >
            {cordSize.options.map((each) => (
              <option key={each} value={each}>
                {each.replace("mm2", "mm²")}
              </option>
            ))}
          </Choice>
        </div>
        {source === "battery" && number("power.batteryWh", words.battery, text(power?.batteryWh))}
        <Loads power={power} shown={shown} />
        {shown < mostRows.loads && (
          <button type="button" class="btn" onClick={() => setShown(shown + 1)}>
            {words.addLoad}
          </button>
        )}
        {source !== "" && written !== null && <WrittenSum written={written} />}
      </div>
    </details>
  );
}

/** What outlets give where feet and inches are read, and elsewhere. */
function usual() {
  return units.value === "us" ? { volts: 120, size: "14 AWG" } : { volts: 230, size: "1.5 mm2" };
}

function Loads({ power, shown }: { power: PowerPlan | null; shown: number }) {
  return (
    <fieldset class="field">
      <legend>{words.loads}</legend>
      {Array.from({ length: shown }, (_, at) => {
        const load = power?.loads[at];
        return (
          <div key={at} class="two">
            <Field
              name={`load.${at}.what`}
              label={words.what(at + 1)}
              maxlength={60}
              defaultValue={load?.what ?? (power === null ? (words.usual[at] ?? "") : "")}
              refusal={null}
            />
            <Field
              name={`load.${at}.watts`}
              label={words.watts}
              inputmode="decimal"
              defaultValue={load === undefined ? "" : String(load.watts)}
              refusal={null}
            />
          </div>
        );
      })}
    </fieldset>
  );
}

/** The sum of what stands in the form at this moment. */
function WrittenSum({ written }: { written: Written }) {
  const read = powerPlan.safeParse(powerBody(written, units.value));
  if (!read.success || read.data.loads.length === 0) return <p class="small">{words.notYet}</p>;
  const { openAtMs, closeAtMs } = bookingBody(written);
  const openHours = ((closeAtMs ?? 0) - (openAtMs ?? 0)) / hourMs;
  return <PowerResult sum={powerSum(read.data, openHours > 0 ? openHours : null)} />;
}
