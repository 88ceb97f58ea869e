import type { BoothView } from "@boothward/shared-types/view";
import { otherPrinter as words } from "../words/en/otherPrinter.ts";
import { NumberForm } from "./NumberForm.tsx";
import type { PersonWord } from "./useSay.ts";

type OtherPrinterProps = Pick<Parameters<typeof NumberForm>[0], "refusal" | "isBusy"> & {
  booth: BoothView;
  /** Says the words one after the other. */
  tell: (...said: PersonWord[]) => Promise<void>;
};

/** Another printer takes over in mid-event: its roll is the loaded one now, the first one's is set aside. */
export function OtherPrinter({ booth, tell, ...sent }: OtherPrinterProps) {
  const swap = (sheets: number) =>
    tell({ kind: "rollTakenOff", sheetsLeft: null }, { kind: "rollFitted", sheets });
  return (
    <NumberForm
      name="sheets"
      label={words.sheets}
      hint={words.hint}
      most={booth.kitSheets}
      least={1}
      word={words.swap}
      send={(n) => n !== null && void swap(n)}
      {...sent}
    />
  );
}
