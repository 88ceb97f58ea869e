import type { BoothView } from "@boothward/shared-types/view";
import { Roll } from "../parts/Roll.tsx";
import { Strip } from "../parts/Strip.tsx";
import { stripInput } from "../parts/stripInput.ts";
import { boothSentence, figureText } from "../words/boothSentence.ts";
import { card as words } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** The roll and the strip of the evening beside each other, for a thumb's page. */
export function EveningPart(props: { booth: BoothView; nowMs: number; isOld: boolean; format: Format }) {
  const { booth, nowMs, isOld, format } = props;
  const { media, kitSheets } = booth;
  const input = stripInput(booth, nowMs, isOld, null);
  if (media === null || input === null) return null;
  return (
    <div class="evening-part">
      <Roll
        left={media.sheetsLeft}
        kit={kitSheets}
        isOld={isOld}
        label={words.rollLabel(figureText(media, format), format.count(kitSheets))}
      />
      <Strip
        input={input}
        size="card"
        isOld={isOld}
        format={format}
        label={boothSentence(booth, nowMs, format, isOld).why}
      />
    </div>
  );
}
