import type { AlertView } from "@boothward/shared-types/view";
import type { AlertAnswer } from "@boothward/shared-types/words";
import { FormRefusal } from "../parts/Field.tsx";
import { usePage } from "../state/pageContext.ts";
import { me, nowMs } from "../state/signals.ts";
import { answers as words } from "../words/en/answers.ts";
import type { Format } from "../../alerts/format.ts";
import { answering, answeringText } from "./answering.ts";
import { queueOf } from "./queueOf.ts";
import "../styles/answers.css";

const buttons: readonly AlertAnswer[] = ["take", "later", "done"];
/** What is over by itself asks only to be put away. */
const buttonsOnceOver: readonly AlertAnswer[] = ["done"];

type AnswerProps = {
  alert: AlertView;
  headline: string;
  format: Format;
  /** On the attendant's page Done is the largest and last; elsewhere taking it is what is asked for. */
  isForThumb?: boolean;
};

/** The three buttons of an alert, what was pressed of them, and what came of it. */
export function AnswerButtons({ alert, headline, format, isForThumb = false }: AnswerProps) {
  const queue = queueOf(usePage());
  const its = answering(alert, queue.waiting.value, me.value.name, nowMs.value);
  const isOver = alert.overAtMs !== null;
  const main = isOver ? null : isForThumb || its.taken !== null ? "done" : "take";
  const refused = queue.refused.value;
  return (
    <div class={isForThumb ? "thumb" : "answers"}>
      <p class="answered" role="status">
        {answeringText(alert, its, { by: me.value.name, nowMs: nowMs.value, format })}
      </p>
      <FormRefusal refusal={refused?.alertId === alert.alertId ? refused.refusal : null} shown={[]} />
      <div class={isForThumb ? "three" : "row"} role="group" aria-label={words.group(headline)}>
        {(isOver ? buttonsOnceOver : buttons).map((answer) => (
          <button
            key={answer}
            type="button"
            class={`btn ${answer === main ? "main" : ""} ${answer}`}
            aria-pressed={its.pressed.has(answer)}
            aria-disabled={its.pressed.has(answer)}
            onClick={() => !its.pressed.has(answer) && queue.say(alert.alertId, answer, nowMs.value)}
          >
            {words.button[answer]}
          </button>
        ))}
      </div>
    </div>
  );
}
