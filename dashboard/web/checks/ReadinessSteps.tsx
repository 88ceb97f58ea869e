import type { ChecksView } from "@boothward/shared-types/planView";
import { readiness } from "@boothward/shared-types/words";
import { useState } from "preact/hooks";
import type { PersonWord, useSay } from "../desk/useSay.ts";
import { slowMs } from "../state/signals.ts";
import { checks as words, readinessSay, readinessWord } from "../words/en/checks.ts";
import type { Format } from "../../alerts/format.ts";

const hourMs = 3_600_000;

/** Guests stay over: an hour more may be agreed on a while after the close. */
const extendedUntilMs = 2 * hourMs;

type ReadinessStepsProps = {
  view: ChecksView;
  format: Format;
  said: ReturnType<typeof useSay>;
  again: () => void;
};

/** Where the booth stands between the van and the van, what may be said next, and an hour more. */
export function ReadinessSteps({ view, format, said, again }: ReadinessStepsProps) {
  const [last, setLast] = useState<{ bootId: string; seq: number } | null>(null);
  const { bookingId, openAtMs, closeAtMs } = view;
  const tell = async (word: PersonWord) => {
    const made = await said.say(word);
    setLast(made);
    if (made !== null) again();
  };
  const takeBack = async (name: { bootId: string; seq: number }) => {
    if ((await said.say({ kind: "takenBack", ...name })) === null) return;
    setLast(null);
    again();
  };
  const now = view.readiness;
  const later = closeAtMs + hourMs;
  const isOn = slowMs.value >= openAtMs && slowMs.value < closeAtMs + extendedUntilMs;
  return (
    <section class="sheet readiness">
      <h2>{words.readiness}</h2>
      <ol>
        {readiness.options.map((step) => (
          <li key={step} aria-current={step === now?.to ? "step" : undefined}>
            {readinessWord[step]}
          </li>
        ))}
      </ol>
      <p role="status">
        {now === null ? words.nothingSaid : words.since(readinessWord[now.to], format.clock(now.atMs))}
        {isOn && ` ${words.closes(format.clock(closeAtMs))}`}
      </p>
      <div class="row">
        {view.next.map((to, at) => (
          <button
            key={to}
            type="button"
            class={`btn big ${at === 0 ? "main" : ""}`}
            disabled={said.isBusy}
            onClick={() => void tell({ kind: "readiness", to })}
          >
            {readinessSay[to]}
          </button>
        ))}
        {isOn && (
          <button
            type="button"
            class="btn big"
            disabled={said.isBusy}
            onClick={() => void tell({ kind: "extended", bookingId, closeAtMs: later })}
          >
            {words.longer(format.clock(later))}
          </button>
        )}
        {last !== null && (
          <button type="button" class="btn big" disabled={said.isBusy} onClick={() => void takeBack(last)}>
            {words.undo}
          </button>
        )}
      </div>
    </section>
  );
}
