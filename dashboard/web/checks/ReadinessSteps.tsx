import type { ChecksView } from "@boothward/shared-types/planView";
import { readiness } from "@boothward/shared-types/words";
import type { Readiness } from "@boothward/shared-types/words";
import { useState } from "preact/hooks";
import type { useSay } from "../desk/useSay.ts";
import { TwoTaps } from "../parts/TwoTaps.tsx";
import { checks as words, readinessSay, readinessWord } from "../words/en/checks.ts";
import type { Format } from "../../alerts/format.ts";

const hourMs = 3_600_000;

type ReadinessStepsProps = {
  view: ChecksView;
  format: Format;
  said: ReturnType<typeof useSay>;
  again: () => void;
};

/** Where the booth stands between the van and the van, what may be said next, and an hour more. */
export function ReadinessSteps({ view, format, said, again }: ReadinessStepsProps) {
  const [last, setLast] = useState<{ bootId: string; seq: number } | null>(null);
  const { bookingId, closeAtMs } = view;
  const tell = async (to: Readiness) => {
    const made = await said.say({ kind: "readiness", to });
    setLast(made);
    if (made !== null) again();
  };
  const takeBack = async (name: { bootId: string; seq: number }) => {
    if ((await said.say({ kind: "takenBack", ...name })) === null) return;
    setLast(null);
    again();
  };
  const extend = async () => {
    const made = await said.say({ kind: "extended", bookingId, closeAtMs: closeAtMs + hourMs });
    if (made !== null) again();
  };
  const now = view.readiness;
  const isOn = now?.to === "open" || now?.to === "onBreak" || now?.to === "closing";
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
      </p>
      <div class="row">
        {view.next.map((to, at) => (
          <button
            key={to}
            type="button"
            class={`btn big ${at === 0 ? "main" : ""}`}
            disabled={said.isBusy}
            onClick={() => void tell(to)}
          >
            {readinessSay[to]}
          </button>
        ))}
        {last !== null && (
          <button type="button" class="btn big" disabled={said.isBusy} onClick={() => void takeBack(last)}>
            {words.undo}
          </button>
        )}
      </div>
      {isOn && (
        <div class="row">
          <TwoTaps
            key={closeAtMs}
            word={words.longer}
            ask={words.longerAsk(format.clock(closeAtMs), format.clock(closeAtMs + hourMs))}
            yes={words.longerYes(format.clock(closeAtMs + hourMs))}
            no={words.longerNo}
            isGrave={false}
            act={() => void extend()}
          />
        </div>
      )}
    </section>
  );
}
