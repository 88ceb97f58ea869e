import type { BoothView } from "@boothward/shared-types/view";
import { Icon } from "../parts/Icon.tsx";
import { toneOf } from "../state/boothLook.ts";
import { chip } from "../words/en/today.ts";
import { attend as words } from "../words/en/attend.ts";

const toneWords = { ...chip, act: "Now", plan: "Soon" };

/** Which booth is looked at, of those in one person's care, each with how it is. */
export function BoothSwitch(props: {
  booths: readonly BoothView[];
  shownId: string;
  isCutOff: boolean;
  show: (boothId: string) => void;
}) {
  return (
    <div class="booth-switch" role="group" aria-label={words.booths}>
      {props.booths.map((booth) => {
        const tone = toneOf(booth, props.isCutOff);
        return (
          <button
            key={booth.boothId}
            type="button"
            class={`btn ${tone}`}
            aria-pressed={booth.boothId === props.shownId}
            onClick={() => props.show(booth.boothId)}
          >
            <Icon name={tone} />
            <span>
              {booth.name}
              <small>{toneWords[tone]}</small>
            </span>
          </button>
        );
      })}
    </div>
  );
}
