import type { BoothView } from "@boothward/shared-types/view";
import { changeText, rationingText, rollsText, waitText } from "../words/adviceWords.ts";
import type { Format } from "../../alerts/format.ts";

type AdviceProps = { booth: BoothView; nowMs: number; format: Format };

/** What follows from the forecast where no alert speaks of the paper: the verdict first, then its reasons. */
export function AdviceSheet(props: AdviceProps & { said: string }) {
  const media = props.booth.outlook.media;
  if (media === null) return null;
  const change = changeText(media, props.format);
  if (change === null && reasonsOf(props).length === 0) return null;
  return (
    <section class="sheet">
      {change !== null && change.doNow !== props.said && <p class="do">{change.doNow}</p>}
      <AdviceReasons {...props} />
    </section>
  );
}

/** Both costs of the change, rolls to the close, what saves paper, how long guests wait: only what applies. */
export function AdviceReasons(props: AdviceProps) {
  const media = props.booth.outlook.media;
  if (media === null) return null;
  const change = changeText(media, props.format);
  return (
    <>
      {change !== null && change.choices.length > 0 && (
        <>
          <dl class="weigh">
            {change.choices.map(({ name, cost }) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{cost}</dd>
              </div>
            ))}
          </dl>
          {change.doubt !== null && <p class="small">{change.doubt}</p>}
        </>
      )}
      {reasonsOf(props).map((sentence) => (
        <p key={sentence}>{sentence}</p>
      ))}
    </>
  );
}

function reasonsOf({ booth, nowMs, format }: AdviceProps): string[] {
  const media = booth.outlook.media;
  if (media === null) return [];
  const sentences = [
    media.rolls.needed === 0 ? null : rollsText(media.rolls),
    rationingText(media, nowMs, format),
    waitText(media, format),
  ];
  return sentences.filter((each) => each !== null);
}
