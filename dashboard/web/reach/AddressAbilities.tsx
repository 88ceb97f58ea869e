import { FormRefusal } from "../parts/Field.tsx";
import { abilities } from "../state/alertShapes.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { address as words } from "../words/en/reach.ts";
import { AbilityList } from "./AbilityList.tsx";
import { addressAbilities } from "./addressAbilities.ts";

/** What the address that the dashboard is opened at allows, and why the rest does not work. */
export function AddressAbilities() {
  const { answer, refusal } = useAnswer("/api/abilities", abilities);
  const { origin } = window.location;
  return (
    <section class="sheet">
      <h2>{words.title}</h2>
      <p>{words.at(origin)}</p>
      <FormRefusal refusal={refusal} shown={[]} />
      {answer === null && refusal === null && <p class="small">{words.asking}</p>}
      {answer !== null && (
        <>
          {answer.origin !== origin && (
            <p class="small">{answer.origin === null ? words.none : words.other(answer.origin)}</p>
          )}
          <AbilityList abilities={addressAbilities(window, answer)} />
        </>
      )}
    </section>
  );
}
