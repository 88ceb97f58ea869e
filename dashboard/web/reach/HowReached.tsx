import { useEffect, useState } from "preact/hooks";
import { isBellOn } from "../attend/bell.ts";
import { FormRefusal } from "../parts/Field.tsx";
import type { Refusal } from "../state/api.ts";
import { usePage } from "../state/pageContext.ts";
import { reach as words } from "../words/en/reach.ts";
import { AbilityList } from "./AbilityList.tsx";
import { allowNotices } from "./allowNotices.ts";
import { phoneAbilities } from "./phoneAbilities.ts";
import type { Device } from "./phoneAbilities.ts";
import { readDevice } from "./readDevice.ts";
import { TestMe } from "./TestMe.tsx";

/** What this device can do to reach its person, what is to be allowed for it, and a test. */
export function HowReached() {
  const page = usePage();
  const [device, setDevice] = useState<Device | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const [isBusy, setBusy] = useState(false);
  const look = () => void readDevice(window).then(setDevice);
  useEffect(look, [isBellOn.value]);
  const allow = async () => {
    setBusy(true);
    setRefusal(await allowNotices(page, window));
    setBusy(false);
    look();
  };
  if (device === null) return <section class="sheet waiting" />;
  const abilities = phoneAbilities(device);
  const push = abilities.find(({ icon }) => icon === "push")?.is ?? "no";
  return (
    <>
      <section class="sheet">
        <h2>{words.title}</h2>
        <AbilityList abilities={abilities} />
        <p class={`reached ${push === "yes" ? "" : "no"}`}>{words.closed[push === "yes" ? "yes" : "no"]}</p>
        <FormRefusal refusal={refusal} shown={[]} />
        {push === "notYet" && (
          <div class="row">
            <button type="button" class="btn main" disabled={isBusy} onClick={() => void allow()}>
              {isBusy ? words.allowing : words.allow}
            </button>
          </div>
        )}
      </section>
      <TestMe />
    </>
  );
}
