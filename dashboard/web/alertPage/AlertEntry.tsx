import { AnswerButtons } from "../answers/AnswerButtons.tsx";
import { Chip } from "../parts/Chip.tsx";
import { alertText, saysWhatToDo } from "../words/alertText.ts";
import { alertPage as words } from "../words/en/alerts.ts";
import type { Format } from "../../alerts/format.ts";
import type { Listed } from "./listed.ts";
import { storyLines } from "./storyLines.ts";

const tones = { actNow: "act", plan: "plan", note: "fine" } as const;
const looks = { actNow: "act", plan: "plan", note: "note" } as const;

type EntryProps = {
  listed: Listed;
  nowMs: number;
  format: Format;
  /** The page does not hear the dashboard: it is shown as of then. */
  isOld: boolean;
};

/** One alert with what to do, its latest moment, its buttons and its story. */
export function AlertEntry({ listed, nowMs, format, isOld }: EntryProps) {
  const { alert, booth, boothName } = listed;
  if (booth === null) return null;
  const text = alertText(alert, booth, nowMs, format);
  const by = alert.byAtMs === null ? null : format.clock(alert.byAtMs);
  const isOver = alert.overAtMs !== null;
  const tone = isOld ? "silent" : isOver ? "watch" : tones[alert.severity];
  return (
    <section
      class={`sheet alert ${isOld ? "silent" : isOver ? "" : looks[alert.severity]}`}
      aria-label={text.headline}
    >
      <div class="top">
        <Chip tone={tone} word={isOver ? words.overWord : text.chip} />
        <a class="voice" href={`/booths/${encodeURIComponent(alert.boothId)}`}>
          {boothName}
        </a>
        <span class="small since">{words.since(format.clock(alert.sinceAtMs))}</span>
      </div>
      <h2>{text.headline}</h2>
      {isOver ? (
        <p>{words.over(format.clock(alert.overAtMs ?? nowMs))}</p>
      ) : (
        <>
          {!saysWhatToDo(text) && <p class="do-now">{text.doNow}</p>}
          <p>{text.detail}</p>
          {by !== null && !text.headline.includes(by) && !text.detail.includes(by) && (
            <p class="small">{words.by(by)}</p>
          )}
        </>
      )}
      <AnswerButtons alert={alert} headline={text.headline} format={format} />
      <Story listed={listed} format={format} />
    </section>
  );
}

/** Who said what and who was told by which way, and what came of it. */
export function Story({ listed, format }: { listed: Listed; format: Format }) {
  const lines = storyLines(listed.story, format);
  if (lines.length === 0) return null;
  return (
    <details>
      <summary>{words.story}</summary>
      <ul class="log">
        {lines.map(({ atMs, text }) => (
          <li key={`${atMs} ${text}`}>
            <b>{format.clock(atMs)}</b>
            <span>{text}</span>
          </li>
        ))}
        {listed.story.told.length === 0 && <li>{words.nobodyTold}</li>}
      </ul>
    </details>
  );
}
