import { reach as words } from "../words/en/reach.ts";
import { ReachIcon } from "./ReachIcon.tsx";
import type { ReachIconName } from "./ReachIcon.tsx";
import "../styles/reach.css";

export type ListedAbility = {
  icon: ReachIconName;
  name: string;
  is: "yes" | "notYet" | "no" | "unknown";
  says: string;
};

const answers = { yes: words.yes, notYet: words.notYet, no: words.no, unknown: words.unknown };

/** What can be done and what cannot, each with its icon, a word for it, and a sentence. */
export function AbilityList({ abilities }: { abilities: readonly ListedAbility[] }) {
  return (
    <ul class="abilities">
      {abilities.map(({ icon, name, is, says }) => (
        <li key={name} class={is}>
          <ReachIcon name={icon} />
          <div>
            <b>{name}</b> <span class="is">{answers[is]}</span>
            <p class="small">{says}</p>
          </div>
        </li>
      ))}
    </ul>
  );
}
