import type { BoothView } from "@boothward/shared-types/view";
import { facts as words } from "../words/en/facts.ts";
import type { Format } from "../../alerts/format.ts";
import { factsOf } from "./factsOf.ts";

/** All that is known of a booth, what was counted with what it was counted by. */
export function Facts({ booth, isOld, format }: { booth: BoothView; isOld: boolean; format: Format }) {
  return (
    <section class="sheet facts-sheet">
      <h2>{words.title}</h2>
      <dl class={`facts ${isOld ? "grey" : ""}`}>
        {factsOf(booth, format).map((fact) => [
          <dt key={`${fact.name} name`}>{fact.name}</dt>,
          <dd key={fact.name}>
            {fact.text}
            {fact.note !== "" && <small>{fact.note}</small>}
          </dd>,
        ])}
      </dl>
      <div class="row">
        <a class="btn" href={`/booths/${encodeURIComponent(booth.boothId)}/attend`}>
          {words.attend}
        </a>
        <a class="btn" href={`/booths/${encodeURIComponent(booth.boothId)}/checks`}>
          {words.checks}
        </a>
      </div>
    </section>
  );
}
