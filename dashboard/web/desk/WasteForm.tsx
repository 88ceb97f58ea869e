import { useState } from "preact/hooks";
import { Picks } from "../parts/Picks.tsx";
import { desk as words } from "../words/en/desk.ts";
import { NumberForm } from "./NumberForm.tsx";
import type { PersonWord, WasteCause } from "./useSay.ts";

type WasteFormProps = Pick<Parameters<typeof NumberForm>[0], "refusal" | "isBusy" | "most"> & {
  tell: (word: PersonWord) => Promise<void>;
};

/** Sheets that went to no guest, and why. */
export function WasteForm({ tell, ...sent }: WasteFormProps) {
  const [cause, setCause] = useState<WasteCause>("spoilt");
  return (
    <NumberForm
      name="pitches"
      label={words.wasted}
      least={1}
      word={words.tellWaste}
      send={(n) => n !== null && void tell({ kind: "waste", pitches: n, cause })}
      {...sent}
    >
      <Picks label={words.why} name="cause" options={words.causes} chosen={cause} choose={setCause} />
    </NumberForm>
  );
}
