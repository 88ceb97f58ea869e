import { useRef, useState } from "preact/hooks";
import { Field, FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { readForm } from "../parts/readForm.ts";
import { done } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";
import { firstRun as words, form as formWords, signIn } from "../words/en/setUp.ts";

/** The owner's account, made once with the code that stands in the fragment and is taken out of the address. */
export function FirstRun() {
  const page = usePage();
  const code = useRef(page.takeFragment().replace(/^code=/, ""));
  const { refusal, isBusy, send } = useSend();
  const [isShown, setShown] = useState(false);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const body = { code: code.current, name: written.text("name"), password: written.text("password") };
    if ((await send(() => page.call("POST", "/api/first-run", done, body))) !== null) page.go("/");
  };
  const hasCode = code.current !== "";
  return (
    <Frame title={words.title} bar={<Mark />} isBare>
      <div class="verdict">
        <h1 tabIndex={-1}>{words.title}</h1>
        <p>{hasCode ? words.lead : words.noCode}</p>
      </div>
      {hasCode && (
        <div class="sheet narrow">
          <form onSubmit={(event) => void submit(event)}>
            <Field
              name="name"
              label={signIn.name}
              autocomplete="username"
              required
              maxlength={80}
              refusal={refusal}
            />
            <Field
              name="password"
              label={signIn.password}
              hint={words.passwordHint}
              type={isShown ? "text" : "password"}
              autocomplete="new-password"
              required
              minlength={10}
              maxlength={200}
              refusal={refusal}
            />
            <label class="pick">
              <input type="checkbox" onChange={() => setShown(!isShown)} checked={isShown} />
              {signIn.show}
            </label>
            <FormRefusal refusal={refusal} shown={["name", "password"]} />
            <button class="btn main" disabled={isBusy}>
              {isBusy ? formWords.sending : words.go}
            </button>
          </form>
        </div>
      )}
    </Frame>
  );
}
