import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Field, FormRefusal } from "../parts/Field.tsx";
import { readForm } from "../parts/readForm.ts";
import type { Refusal } from "../state/api.ts";
import { form as formWords } from "../words/en/form.ts";
import { desk as words } from "../words/en/desk.ts";

type NumberFormProps = {
  /** The field's name in what is sent, so that a refusal stands at it. */
  name: string;
  label: string;
  hint?: string;
  /** More than this is asked for twice. */
  most: number;
  least?: number;
  isOptional?: boolean;
  word: string;
  refusal: Refusal | null;
  isBusy: boolean;
  send: (n: number | null) => void;
  children?: ComponentChildren;
};

/** One number to tell, with big keys. A number that is likely a slip of the finger is asked for twice. */
export function NumberForm(props: NumberFormProps) {
  const { name, most, least = 0 } = props;
  const [doubt, setDoubt] = useState<{ n: number | null; sentence: string } | null>(null);
  const submit = (event: SubmitEvent) => {
    const written = readForm(event).number(name);
    if (written === null && props.isOptional === true) return props.send(null);
    if (typeof written !== "number" || !Number.isInteger(written) || written < least)
      return setDoubt({ n: null, sentence: words.wholeNumber(least) });
    if (written > most && doubt?.n !== written)
      return setDoubt({ n: written, sentence: words.moreThanFull(written, most) });
    setDoubt(null);
    props.send(written);
  };
  const own = doubt === null ? null : { error: "doubt", sentence: doubt.sentence, field: name };
  return (
    <form onSubmit={submit} noValidate>
      {props.children}
      <Field
        name={name}
        inputmode="numeric"
        autocomplete="off"
        label={props.label}
        {...(props.hint === undefined ? {} : { hint: props.hint })}
        refusal={own ?? props.refusal}
      />
      <FormRefusal refusal={props.refusal} shown={[name]} />
      <button class="btn main big" disabled={props.isBusy}>
        {props.isBusy ? formWords.sending : props.word}
      </button>
    </form>
  );
}
