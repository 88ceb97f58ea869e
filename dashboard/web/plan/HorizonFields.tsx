import type { Standing } from "@boothward/shared-types/site";
import { useState } from "preact/hooks";
import { Field } from "../parts/Field.tsx";
import { obstaclesOf } from "../parts/obstacles.ts";
import { mostRows } from "../parts/planBody.ts";
import type { Refusal } from "../state/api.ts";
import { horizonForm as words } from "../words/en/plan.ts";

type HorizonFieldsProps = { horizon: Standing["horizon"]; refusal: Refusal | null };

const ends = ["fromDeg", "toDeg", "elevationDeg"] as const;

/** What stands around the booth before the sun: houses, trees, hills, each by its directions and its height. */
export function HorizonFields({ horizon, refusal }: HorizonFieldsProps) {
  const obstacles = obstaclesOf(horizon);
  const [shown, setShown] = useState(Math.max(1, obstacles?.length ?? 0));
  const isRefused = refusal?.field?.startsWith("standing.horizon") === true;
  return (
    <details {...(isRefused ? { open: true } : {})}>
      <summary>{words.title}</summary>
      <div class="more-fields">
        <p class="small">{words.lead}</p>
        {obstacles === null && <p class="small">{words.measured(horizon.length)}</p>}
        {Array.from({ length: Math.min(shown, mostRows.obstacles) }, (_, at) => (
          <div key={at} class="two">
            {ends.map((end) => (
              <Field
                key={end}
                name={`obstacle.${at}.${end}`}
                label={words[end](at + 1)}
                inputmode="decimal"
                defaultValue={String(obstacles?.[at]?.[end] ?? "")}
                refusal={isRefused && refusal !== null ? { ...refusal, field: "obstacle.0.fromDeg" } : null}
              />
            ))}
          </div>
        ))}
        {shown < mostRows.obstacles && (
          <button type="button" class="btn" onClick={() => setShown(shown + 1)}>
            {words.add}
          </button>
        )}
      </div>
    </details>
  );
}
