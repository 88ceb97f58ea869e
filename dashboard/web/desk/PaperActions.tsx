import type { BoothView } from "@boothward/shared-types/view";
import { useState } from "preact/hooks";
import { FormRefusal } from "../parts/Field.tsx";
import { later } from "../parts/later.tsx";
import { figureText } from "../words/boothSentence.ts";
import { desk as words } from "../words/en/desk.ts";
import type { Format } from "../../alerts/format.ts";
import { saidText } from "../words/saidText.ts";
import { Authority } from "./Authority.tsx";
import { NumberForm } from "./NumberForm.tsx";
import { SaidList } from "./SaidList.tsx";
import { useSay } from "./useSay.ts";
import type { PersonWord } from "./useSay.ts";
import { WasteForm } from "./WasteForm.tsx";

const OtherPrinter = later(
  () => import("./OtherPrinter.tsx").then((file) => file.OtherPrinter),
  () => null,
);

const sheets = ["other", "correct", "off", "printer", "waste"] as const;
type Opened = (typeof sheets)[number];

/** The roll that came off for a new one, and when that was fitted. */
type OldRoll = { left: number; fittedAtMs: number };

/** Fewer sheets than this on a roll that came off are not asked after. */
const worthKeeping = 8;
/** A roll comes off so long before the next one is fitted: the order is what counts. */
const beforeMs = 1000;

/** What a person says of the paper: a new roll by one tap, the rest by a short form; then what was said so far. */
export function PaperActions({ booth, format }: { booth: BoothView; format: Format }) {
  const { refusal, isBusy, say } = useSay(booth.boothId);
  const [opened, setOpened] = useState<Opened | null>(null);
  const [kept, setKept] = useState("");
  const [before, setBefore] = useState<OldRoll | null>(null);
  const tell = async (...said: PersonWord[]) => {
    const left = booth.media?.sheetsLeft ?? 0;
    setKept("");
    setBefore(null);
    for (const word of said) {
      const made = await say(word);
      if (made === null) return;
      setKept(words.kept(wordText(word, format)));
      // Where the roll before was said to be off there is nothing to ask about it.
      if (word.kind === "rollFitted" && said.length === 1 && left >= worthKeeping)
        setBefore({ left, fittedAtMs: made.atMs });
    }
    setOpened(null);
  };
  const full = words.fullRoll(format.count(booth.kitSheets));
  const sent = { refusal, isBusy };
  return (
    <section class="sheet desk">
      <h2>{words.title}</h2>
      <button
        type="button"
        class="btn main big"
        disabled={isBusy}
        onClick={() => void tell({ kind: "rollFitted", sheets: booth.kitSheets })}
      >
        {full}
      </button>
      <div class="row">
        {sheets.map((each) => (
          <button
            key={each}
            type="button"
            class="btn"
            aria-expanded={opened === each}
            onClick={() => setOpened(opened === each ? null : each)}
          >
            {words.open[each]}
          </button>
        ))}
      </div>
      {opened === "other" && <OtherRoll booth={booth} format={format} tell={tell} {...sent} />}
      {opened === "correct" && (
        <NumberForm
          name="sheetsLeft"
          label={words.sheetsLeft}
          {...(booth.media === null ? {} : { hint: words.shown(figureText(booth.media, format)) })}
          most={booth.kitSheets}
          word={words.correct}
          send={(n) => n !== null && void tell({ kind: "correction", sheetsLeft: n })}
          {...sent}
        />
      )}
      {opened === "off" && (
        <NumberForm
          name="sheetsLeft"
          label={words.leftOnIt}
          hint={words.leftOnItHint}
          most={booth.kitSheets}
          isOptional
          word={words.takenOff}
          send={(sheetsLeft) => void tell({ kind: "rollTakenOff", sheetsLeft })}
          {...sent}
        />
      )}
      {opened === "printer" && <OtherPrinter booth={booth} tell={tell} {...sent} />}
      {opened === "waste" && <WasteForm most={booth.kitSheets} tell={tell} {...sent} />}
      {opened === null && <FormRefusal refusal={refusal} shown={[]} />}
      <p role="status" class="small">
        {kept}
      </p>
      {before !== null && (
        <div role="group" aria-label={words.oldRoll(format.count(before.left))} class="asking">
          <p>{words.oldRoll(format.count(before.left))}</p>
          <div class="row">
            <button type="button" class="btn" disabled={isBusy} onClick={() => setBefore(null)}>
              {words.notSetAside}
            </button>
            <button
              type="button"
              class="btn main"
              disabled={isBusy}
              onClick={() =>
                void tell({ kind: "rollTakenOff", sheetsLeft: null, atMs: before.fittedAtMs - beforeMs })
              }
            >
              {words.setAside}
            </button>
          </div>
        </div>
      )}
      <SaidList booth={booth} format={format} />
      <Authority booth={booth} />
    </section>
  );
}

type OtherRollProps = Pick<Parameters<typeof NumberForm>[0], "refusal" | "isBusy"> & {
  booth: BoothView;
  format: Format;
  tell: (word: PersonWord) => Promise<void>;
};

/** A roll that is not full: one of those set aside at the booth, or any other by its sheets. */
function OtherRoll({ booth, format, tell, ...sent }: OtherRollProps) {
  const partial = booth.media?.partialRolls ?? [];
  return (
    <>
      {partial.length > 0 && (
        <div class="row">
          {partial.map((left, i) => (
            <button
              key={i}
              type="button"
              class="btn big"
              disabled={sent.isBusy}
              onClick={() => void tell({ kind: "rollFitted", sheets: left })}
            >
              {words.partRoll(format.count(left))}
            </button>
          ))}
        </div>
      )}
      <NumberForm
        name="sheets"
        label={partial.length > 0 ? words.otherSheets : words.rollSheets}
        most={booth.kitSheets}
        least={1}
        word={words.fitIt}
        send={(n) => n !== null && void tell({ kind: "rollFitted", sheets: n })}
        {...sent}
      />
    </>
  );
}

function wordText(word: PersonWord, format: Format): string {
  switch (word.kind) {
    case "rollFitted":
      return saidText(word.kind, word.sheets, format);
    case "rollTakenOff":
    case "correction":
      return saidText(word.kind, word.sheetsLeft, format);
    case "waste":
      return saidText(word.kind, word.pitches, format);
    case "rollDenied":
      return saidText(word.kind, null, format);
    case "takenBack":
    case "authority":
    case "extended":
    case "readiness":
    case "check":
      return words.done;
  }
}
