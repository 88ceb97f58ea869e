import type { NoticeSettingsView } from "@boothward/shared-types/notices";
import { useState } from "preact/hooks";
import { Choice, Field, FormRefusal } from "../parts/Field.tsx";
import { readForm } from "../parts/readForm.ts";
import { done } from "../state/api.ts";
import type { Refusal } from "../state/api.ts";
import { noticeSettings } from "../state/settingsShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { deviceZone } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { notices as words } from "../words/en/people.ts";
import { form as formWords } from "../words/en/form.ts";
import { MailFields, Part, PingFields, QuietFields } from "./SettingFields.tsx";
import { firstChoices, settingsBody, settingsFields } from "./settingsBody.ts";
import { setUp as setUpWords } from "../words/en/setUp.ts";
import "../styles/people.css";

/** What the business chose about notices, and this owner about quiet hours. */
export function NoticeSettings() {
  const { answer, refusal, again } = useAnswer("/api/settings/notices", noticeSettings);
  return (
    <section class="sheet people" id="notices">
      <h2>{words.title}</h2>
      <FormRefusal refusal={refusal} shown={[]} />
      {answer === null && refusal === null && <p class="small">{words.asking}</p>}
      {answer !== null && <SettingsForm chosen={answer} saved={() => void again()} />}
    </section>
  );
}

function SettingsForm({ chosen, saved }: { chosen: NoticeSettingsView; saved: () => void }) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [isSaved, setSaved] = useState(false);
  const submit = async (event: SubmitEvent) => {
    const body = settingsBody(readForm(event));
    setSaved(false);
    if ((await send(() => page.call("PUT", "/api/settings/notices", done, body))) === null) return;
    setSaved(true);
    saved();
  };
  return (
    <form onSubmit={(event) => void submit(event)} noValidate>
      <Minutes chosen={chosen} refusal={refusal} />
      <Choice name="units" label={words.units} value={chosen.units} refusal={refusal}>
        <option value="metric">{setUpWords.unitNames.metric}</option>
        <option value="us">{setUpWords.unitNames.us}</option>
      </Choice>
      <Part name="quietHours" word={words.quietOn} lead={words.quiet} isOn={chosen.quietHours !== null}>
        <QuietFields chosen={chosen.quietHours ?? firstChoices.quietHours(deviceZone)} refusal={refusal} />
      </Part>
      <Rules rulesOff={chosen.rulesOff} />
      <Part name="mail" word={words.mailOn} lead={words.mail} isOn={chosen.mail !== null}>
        <MailFields
          chosen={chosen.mail ?? firstChoices.mail}
          hasPassword={chosen.hasMailPassword}
          refusal={refusal}
        />
      </Part>
      <Part name="ping" word={words.pingOn} lead={words.ping} isOn={chosen.ping !== null}>
        <PingFields chosen={chosen.ping ?? firstChoices.ping} refusal={refusal} />
      </Part>
      <FormRefusal refusal={refusal} shown={settingsFields} />
      <button class="btn main" disabled={isBusy}>
        {isBusy ? formWords.sending : words.save}
      </button>
      <p role="status" class="small">
        {isSaved ? words.saved : ""}
      </p>
    </form>
  );
}

function Minutes({ chosen, refusal }: { chosen: NoticeSettingsView; refusal: Refusal | null }) {
  const { escalateAfterMin, repeatAfterMin } = chosen;
  return (
    <>
      <fieldset class="field">
        <legend>{words.escalate}</legend>
        <div class="two">
          {(["actNow", "plan"] as const).map((each) => (
            <Field
              key={each}
              name={`escalateAfterMin.${each}`}
              label={words[each]}
              inputmode="numeric"
              defaultValue={String(escalateAfterMin[each])}
              refusal={refusal}
            />
          ))}
        </div>
      </fieldset>
      <Field
        name="repeatAfterMin"
        label={words.repeat}
        inputmode="numeric"
        defaultValue={String(repeatAfterMin)}
        refusal={refusal}
      />
    </>
  );
}

function Rules({ rulesOff }: Pick<NoticeSettingsView, "rulesOff">) {
  return (
    <fieldset class="field">
      <legend>{words.rules}</legend>
      <p class="small">{words.rulesHint}</p>
      {words.ruleGroups.map(({ title, rules }) => (
        <details key={title} open={rules.some((rule) => rulesOff.includes(rule))}>
          <summary>{title}</summary>
          {rules.map((rule) => (
            <label key={rule} class="pick">
              <input type="checkbox" name={`rule.${rule}`} defaultChecked={!rulesOff.includes(rule)} />
              {words.rule[rule]}
            </label>
          ))}
        </details>
      ))}
    </fieldset>
  );
}
