import { useRef } from "preact/hooks";
import { AccountForm } from "../parts/AccountForm.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { readForm } from "../parts/readForm.ts";
import { done } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";
import { firstRun as words } from "../words/en/setUp.ts";

/** The owner's account, made once with the code that stands in the fragment and is taken out of the address. */
export function FirstRun() {
  const page = usePage();
  const code = useRef(page.takeFragment().replace(/^code=/, ""));
  const { refusal, isBusy, send } = useSend();
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
          <AccountForm
            newPassword={{ hint: words.passwordHint }}
            go={words.go}
            isBusy={isBusy}
            refusal={refusal}
            submit={submit}
          />
        </div>
      )}
    </Frame>
  );
}
