import type { BoothView } from "@boothward/shared-types/view";
import { BoothChip } from "../parts/Chip.tsx";
import { nameOf } from "../words/en/today.ts";
import { attend as words } from "../words/en/attend.ts";
import type { Format } from "../../alerts/format.ts";
import { calmText } from "./attendText.ts";
import { EveningPart } from "./EveningPart.tsx";
import type { DoneMemory } from "./followDone.ts";

type CalmProps = {
  booth: BoothView;
  nowMs: number;
  format: Format;
  thanks: DoneMemory["thanks"];
  /** null: the dashboard is heard. */
  cutOffMs: number | null;
};

/** Nothing to do and until when; thanks for what was just done; or that nobody can tell how the booth is. */
export function CalmCard({ booth, nowMs, format, thanks, cutOffMs }: CalmProps) {
  const name = nameOf(booth.name, booth.isTrailer);
  const calm =
    cutOffMs === null
      ? calmText(booth, name, nowMs, format)
      : {
          headline: words.cutOff(format.minutes(cutOffMs)),
          more: words.cutOffMore(format.clock(nowMs - cutOffMs)),
          isDoubt: true,
        };
  return (
    <section class={`task ${calm.isDoubt ? "silent" : "calm"}`} aria-label={calm.headline}>
      <BoothChip booth={booth} nowMs={nowMs} format={format} isCutOff={cutOffMs !== null} />
      {thanks !== null && cutOffMs === null && (
        <p class="thanks" role="status">
          {thanksText(booth, thanks, format)}
        </p>
      )}
      <h1 tabIndex={-1}>{calm.headline}</h1>
      <p>{calm.more}</p>
      <EveningPart booth={booth} nowMs={nowMs} isOld={calm.isDoubt} format={format} />
    </section>
  );
}

function thanksText(
  booth: BoothView,
  { isPaper }: NonNullable<DoneMemory["thanks"]>,
  format: Format,
): string {
  return isPaper && booth.media !== null ? words.seenRoll(format.count(booth.media.sheetsLeft)) : words.seen;
}
