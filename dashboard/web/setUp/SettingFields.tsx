import type { MailServer, NoticeSettings } from "@boothward/shared-types/notices";
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Choice, Field } from "../parts/Field.tsx";
import type { Refusal } from "../state/api.ts";
import { notices as words } from "../words/en/people.ts";

/** A part of the form that is there only when it is switched on. */
export function Part(props: {
  name: string;
  word: string;
  lead: string;
  isOn: boolean;
  children: ComponentChildren;
}) {
  const [isOn, setOn] = useState(props.isOn);
  return (
    <fieldset class="field">
      <legend>{props.lead}</legend>
      <label class="pick">
        <input
          type="checkbox"
          name={props.name}
          checked={isOn}
          onChange={(event) => setOn(event.currentTarget.checked)}
        />
        {props.word}
      </label>
      {isOn && props.children}
    </fieldset>
  );
}

type Of<T> = { chosen: T; refusal: Refusal | null };

export function QuietFields({ chosen, refusal }: Of<NonNullable<NoticeSettings["quietHours"]>>) {
  return (
    <>
      <div class="two">
        <Field
          name="quietHours.from"
          type="time"
          label={words.from}
          defaultValue={chosen.from}
          refusal={refusal}
        />
        <Field name="quietHours.to" type="time" label={words.to} defaultValue={chosen.to} refusal={refusal} />
      </div>
      <Field name="quietHours.zone" label={words.zone} defaultValue={chosen.zone} refusal={refusal} />
    </>
  );
}

export function MailFields({ chosen, refusal, hasPassword }: Of<MailServer> & { hasPassword: boolean }) {
  const [security, setSecurity] = useState<string>(chosen.security);
  return (
    <>
      <div class="two">
        <Field name="mail.host" label={words.host} defaultValue={chosen.host} refusal={refusal} />
        <Field
          name="mail.port"
          label={words.port}
          inputmode="numeric"
          defaultValue={String(chosen.port)}
          refusal={refusal}
        />
      </div>
      <Choice
        name="mail.security"
        label={words.security}
        value={security}
        onChoose={setSecurity}
        refusal={refusal}
      >
        {Object.entries(words.securities).map(([each, word]) => (
          <option key={each} value={each}>
            {word}
          </option>
        ))}
      </Choice>
      <Field
        name="mail.user"
        label={words.user}
        autocomplete="off"
        defaultValue={chosen.user ?? ""}
        refusal={refusal}
      />
      <Field
        name="mailPassword"
        type="password"
        label={words.password}
        autocomplete="new-password"
        {...(hasPassword ? { hint: words.passwordKept } : {})}
        refusal={refusal}
      />
      <Field name="mail.from" label={words.fromAddress} defaultValue={chosen.from} refusal={refusal} />
    </>
  );
}

export function PingFields({ chosen, refusal }: Of<NonNullable<NoticeSettings["ping"]>>) {
  return (
    <>
      <Field name="ping.url" label={words.pingUrl} defaultValue={chosen.url} refusal={refusal} />
      <Field
        name="ping.everyMin"
        label={words.pingEvery}
        inputmode="numeric"
        defaultValue={String(chosen.everyMin)}
        refusal={refusal}
      />
    </>
  );
}
