import type { ComponentChildren, InputHTMLAttributes, LooseInputHTMLAttributes } from "preact";
import { useEffect, useId, useRef } from "preact/hooks";
import type { Refusal } from "../state/api.ts";
import { Icon } from "./Icon.tsx";

type FieldProps = {
  name: string;
  type?: "text" | "password" | "date" | "time";
  autocomplete?: "username" | "current-password" | "new-password" | "off";
  required?: boolean;
  minlength?: number;
  maxlength?: number;
  inputmode?: "numeric" | "decimal";
  list?: string;
  /** What stands there at first; with `onWrite` the value is kept outside instead, in `value`. */
  defaultValue?: string;
  value?: string;
  onWrite?: (written: string) => void;
  label: string;
  hint?: string;
  /** What the dashboard said of the form; shown here when it is about this field. */
  refusal: Refusal | null;
};

/** One line of a form: its name, its input, a hint, and what is wrong with it in the dashboard's words. */
export function Field({ label, hint, refusal, onWrite, ...input }: FieldProps) {
  const id = useId();
  const wrong = refusal?.field === input.name ? withoutField(refusal) : null;
  const box = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (wrong !== null) box.current?.focus();
  }, [refusal]);
  const attributes: LooseInputHTMLAttributes = {
    ...input,
    ...(onWrite === undefined ? {} : { onInput: (event) => onWrite(event.currentTarget.value) }),
    id,
    "aria-invalid": wrong !== null,
    "aria-describedby": `${id}-hint ${id}-wrong`,
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      {/* The strict type pairs each kind of input with its roles; here the kind comes from outside. */}
      <input {...(attributes as InputHTMLAttributes)} ref={box} />
      {hint !== undefined && (
        <span class="small" id={`${id}-hint`}>
          {hint}
        </span>
      )}
      <Wrong id={`${id}-wrong`} sentence={wrong} />
    </div>
  );
}

/** A choice among a few; otherwise as a field. */
export function Choice(props: {
  name: string;
  label: string;
  value: string;
  refusal: Refusal | null;
  onChoose?: (value: string) => void;
  children: ComponentChildren;
}) {
  const id = useId();
  const wrong = props.refusal?.field === props.name ? withoutField(props.refusal) : null;
  return (
    <div class="field">
      <label for={id}>{props.label}</label>
      <select
        name={props.name}
        id={id}
        value={props.value}
        onChange={(event) => props.onChoose?.(event.currentTarget.value)}
        aria-invalid={wrong !== null}
        aria-describedby={`${id}-wrong`}
      >
        {props.children}
      </select>
      <Wrong id={`${id}-wrong`} sentence={wrong} />
    </div>
  );
}

/** The dashboard's no to a form as a whole, or to a field that the form does not show. */
export function FormRefusal({ refusal, shown }: { refusal: Refusal | null; shown: readonly string[] }) {
  const isElsewhere = refusal?.field != null && shown.includes(refusal.field);
  return <Wrong id="" sentence={refusal === null || isElsewhere ? null : refusal.sentence} />;
}

function Wrong({ id, sentence }: { id: string; sentence: string | null }) {
  return (
    <span id={id === "" ? undefined : id} role="alert">
      {sentence !== null && (
        <span class="wrong">
          <Icon name="act" />
          <span>{sentence}</span>
        </span>
      )}
    </span>
  );
}

/** The sentence without the field's name in code, which the label says already. */
function withoutField({ sentence, field }: Refusal): string {
  const prefix = `${field}: `;
  const plain = sentence.startsWith(prefix) ? sentence.slice(prefix.length) : sentence;
  return plain.charAt(0).toUpperCase() + plain.slice(1);
}
