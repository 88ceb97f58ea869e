import type { BoothView } from "@boothward/shared-types/view";
import { useState } from "preact/hooks";
import { Chip } from "../parts/Chip.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { desk as words } from "../words/en/desk.ts";
import type { Format } from "../../alerts/format.ts";
import { questionText } from "../words/nextStep.ts";
import { NumberForm } from "./NumberForm.tsx";
import { useSay } from "./useSay.ts";
import type { PersonWord } from "./useSay.ts";

type Media = NonNullable<BoothView["media"]>;
type Question = NonNullable<Media["question"]>;

/** The one question about the paper, with answers that a thumb finds in the dark. */
export function QuestionSheet(props: {
  booth: BoothView;
  question: Question;
  format: Format;
  /** The page's headline, which is not said twice. */
  said: string;
}) {
  const { booth, question, format } = props;
  const { refusal, isBusy, say } = useSay(booth.boothId);
  const key = `${question.ask} ${question.atMs}`;
  const [answered, setAnswered] = useState("");
  const answer = async (word: PersonWord) => {
    if ((await say(word)) !== null) setAnswered(key);
  };
  if (answered === key)
    return (
      <section class="sheet">
        <p role="status">{words.thanks}</p>
      </section>
    );
  const text = questionText(question, format);
  const sheets = Math.round(question.sheets ?? booth.kitSheets);
  const atMs = Math.round(question.atMs);
  return (
    <section class="sheet plan" aria-label={text}>
      <div class="top">
        <Chip tone="plan" word={words.question} />
      </div>
      {text !== props.said && <p class="do">{text}</p>}
      <p>{whyText(question, format)}</p>
      {question.ask === "fitted" ? (
        <>
          <FormRefusal refusal={refusal} shown={[]} />
          <div class="row">
            <button
              type="button"
              class="btn big"
              disabled={isBusy}
              onClick={() => void answer({ kind: "rollDenied", atMs })}
            >
              {words.no}
            </button>
            <button
              type="button"
              class="btn main big"
              disabled={isBusy}
              onClick={() => void answer({ kind: "rollFitted", sheets, atMs })}
            >
              {words.yes(format.count(sheets))}
            </button>
          </div>
        </>
      ) : (
        <NumberForm
          name="sheetsLeft"
          label={words.sheetsLeft}
          most={booth.kitSheets}
          word={words.tell}
          refusal={refusal}
          isBusy={isBusy}
          send={(n) => n !== null && void answer({ kind: "correction", sheetsLeft: n })}
        />
      )}
    </section>
  );
}

function whyText({ ask, atMs, sheets }: Question, format: Format): string {
  if (ask === "fitted") return words.whyFitted;
  return sheets === null
    ? words.whyUnseen(format.clock(atMs))
    : words.whyLeft(format.count(sheets), format.clock(atMs));
}
