import { missing as words } from "../words/en/sun.ts";
import type { Missing } from "./planned.ts";

/** What must be entered before the booth can be drawn in the sun, each with where. */
export function MissingForPlan({ missing }: { missing: readonly Missing[] }) {
  return (
    <div class="sunplan">
      <h3>{words.title}</h3>
      <ul class="lacks">
        {missing.map((each) => (
          <li key={each}>
            {words[each]}{" "}
            <a href={each === "box" ? "/set-up" : "/run-sheet"}>
              {each === "box" ? words.setUp : words.runSheet}
            </a>
          </li>
        ))}
      </ul>
    </div>
  );
}
