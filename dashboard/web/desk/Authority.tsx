import type { BoothView } from "@boothward/shared-types/view";
import { pitchBasis, sessionBasis } from "@boothward/shared-types/words";
import { useState } from "preact/hooks";
import { Choice, FormRefusal } from "../parts/Field.tsx";
import { readForm } from "../parts/readForm.ts";
import { countedBy } from "../words/en/facts.ts";
import { desk as words } from "../words/en/desk.ts";
import { useSay } from "./useSay.ts";

/** Which source sessions and sheets are counted by from now on; no choice leaves it to the best there is. */
export function Authority({ booth }: { booth: BoothView }) {
  const { refusal, isBusy, say } = useSay(booth.boothId);
  const [kept, setKept] = useState("");
  const submit = async (event: SubmitEvent) => {
    const form = readForm(event);
    const chosen = <T extends string>(name: string, options: readonly T[]): T | null =>
      options.find((option) => option === form.text(name)) ?? null;
    const said = await say({
      kind: "authority",
      sessionsBy: chosen("sessionsBy", sessionBasis.options),
      pitchesBy: chosen("pitchesBy", pitchBasis.options),
    });
    setKept(said === null ? "" : words.counted);
  };
  return (
    <details>
      <summary>{words.authority}</summary>
      <form onSubmit={(event) => void submit(event)}>
        <Choice name="sessionsBy" label={words.sessionsBy} value="" refusal={refusal}>
          <Options options={countedBy.sessions} />
        </Choice>
        <Choice name="pitchesBy" label={words.pitchesBy} value="" refusal={refusal}>
          <Options options={countedBy.pitches} />
        </Choice>
        <FormRefusal refusal={refusal} shown={["sessionsBy", "pitchesBy"]} />
        <button class="btn" disabled={isBusy}>
          {words.countSo}
        </button>
        <p role="status" class="small">
          {kept}
        </p>
      </form>
    </details>
  );
}

function Options({ options }: { options: Record<string, string> }) {
  return [
    <option key="" value="">
      {words.byBest}
    </option>,
    ...Object.entries(options).map(([word, text]) => (
      <option key={word} value={word}>
        {text}
      </option>
    )),
  ];
}
