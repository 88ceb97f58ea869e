import type { BoothView } from "@boothward/shared-types/view";
import { attend as words } from "../words/en/attend.ts";
import type { Format } from "../../alerts/format.ts";
import { figuresOf } from "./attendText.ts";

/** What can be read of the booth, in small: paper, temperature, sessions, power; grey when it is of the past. */
export function Figures(props: { booth: BoothView; nowMs: number; isOld: boolean; format: Format }) {
  const figures = figuresOf(props.booth, props.nowMs, props.isOld, props.format);
  return (
    <dl class="below" aria-label={words.figures}>
      {figures.map(({ name, figure, isOld }) => (
        <div key={name} class={isOld ? "old" : ""}>
          <dt>{name}</dt>
          <dd>{figure}</dd>
        </div>
      ))}
    </dl>
  );
}
