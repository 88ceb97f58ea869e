import { useEffect, useRef } from "preact/hooks";
import { AccountForm } from "../parts/AccountForm.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { readForm } from "../parts/readForm.ts";
import { done, whoAmI } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { signIn as words } from "../words/en/setUp.ts";

/** Name and password, or a one-time link whose token stands in the fragment and is taken out of the address. */
export function SignIn() {
  const page = usePage();
  const token = useRef(page.takeFragment().replace(/^once=/, ""));
  const { answer } = useAnswer("/api/me", whoAmI);
  const link = useSend();
  const { refusal, isBusy, send } = useSend();

  useEffect(() => {
    if (token.current === "") return;
    const body = { token: token.current };
    void link
      .send(() => page.call("POST", "/api/sign-in-once", done, body))
      .then((came) => {
        if (came !== null) page.go("/");
      });
  }, []);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const body = { name: written.text("name"), password: written.text("password") };
    if ((await send(() => page.call("POST", "/api/sign-in", done, body))) !== null) page.go("/");
  };

  return (
    <Frame title={words.title} bar={<Mark />} isBare>
      <div class="verdict">
        <h1 tabIndex={-1}>{link.isBusy ? words.once : words.title}</h1>
        <p>{answer?.isFirstRun === true ? words.firstRun : words.lead}</p>
      </div>
      <div class="sheet narrow">
        {link.refusal !== null && <p>{words.onceFailed}</p>}
        <FormRefusal refusal={link.refusal} shown={[]} />
        <AccountForm go={words.go} isBusy={isBusy} refusal={refusal} submit={submit} />
      </div>
    </Frame>
  );
}
