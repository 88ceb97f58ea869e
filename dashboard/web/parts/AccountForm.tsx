import { useState } from "preact/hooks";
import type { Refusal } from "../state/api.ts";
import { form as formWords } from "../words/en/form.ts";
import { signIn as words } from "../words/en/setUp.ts";
import { Field, FormRefusal } from "./Field.tsx";

/** A person's name and password, to sign in with or, with `newPassword`, to choose for an account. */
export function AccountForm(props: {
  newPassword?: { hint: string };
  go: string;
  isBusy: boolean;
  refusal: Refusal | null;
  submit: (event: SubmitEvent) => Promise<void>;
}) {
  const { newPassword, refusal } = props;
  const [isShown, setShown] = useState(false);
  return (
    <form onSubmit={(event) => void props.submit(event)}>
      <Field
        name="name"
        label={words.name}
        autocomplete="username"
        required
        refusal={refusal}
        {...(newPassword && { maxlength: 80 })}
      />
      <Field
        name="password"
        label={words.password}
        type={isShown ? "text" : "password"}
        autocomplete={newPassword ? "new-password" : "current-password"}
        required
        refusal={refusal}
        {...(newPassword && { hint: newPassword.hint, minlength: 10, maxlength: 200 })}
      />
      <label class="pick">
        <input type="checkbox" onChange={() => setShown(!isShown)} checked={isShown} />
        {words.show}
      </label>
      <FormRefusal refusal={refusal} shown={["name", "password"]} />
      <button class="btn main" disabled={props.isBusy}>
        {props.isBusy ? formWords.sending : props.go}
      </button>
    </form>
  );
}
