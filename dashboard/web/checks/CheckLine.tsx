import type { OpeningCheck } from "@boothward/shared-types/planView";
import { later } from "../parts/later.tsx";
import { checkText } from "../words/checkText.ts";
import { checks as words } from "../words/en/checks.ts";
import type { Format } from "../../alerts/format.ts";

const TestMe = later(
  () => import("../reach/TestMe.tsx").then((file) => file.TestMe),
  () => null,
);

/** Drawn on a square of 20, each beside its word. */
const marks: Record<OpeningCheck["state"], string> = {
  seen: "M4 10.5l4 4 8-9",
  ticked: "M4 10.5l4 4 8-9M3 3h14v14H3z",
  toDo: "M4 10h12M11 5l5 5-5 5",
  question: "M7 7.5c0-4 6-3.800 6-.3 0 2.300-3 2.300-3 4.800M10 15.500v.1",
  notPossible: "M3 10h2M8 10h1M12 10h1M16 10h1M4 4l12 12",
};

type CheckLineProps = {
  check: OpeningCheck;
  format: Format;
  tick: (check: OpeningCheck["check"], isDone: boolean) => void;
};

/** One line of the checks: icon, name, what was found or is to do, its state in a word, and the one thing to press. */
export function CheckLine({ check, format, tick }: CheckLineProps) {
  const { name, note } = checkText(check, format);
  const { state } = check;
  return (
    <li class={`check ${state}`}>
      <svg class="i" viewBox="0 0 20 20" width={22} height={22} aria-hidden="true">
        <path d={marks[state]} />
      </svg>
      <span>
        <b>{name}</b>
        {note !== "" && <small>{note}</small>}
      </span>
      <span class="state">{words.state[state]}</span>
      {check.check === "testAlert" && state !== "seen" && <TestMe />}
      {state !== "seen" && <TickButton check={check} name={name} tick={tick} />}
    </li>
  );
}

function TickButton({ check, name, tick }: Pick<CheckLineProps, "check" | "tick"> & { name: string }) {
  const { state } = check;
  const isTicked = state === "ticked";
  const looked = check.check === "sparesThere" ? words.spares : words.looked;
  const word = isTicked ? words.untick : state === "toDo" ? words.tick : looked;
  return (
    <button
      type="button"
      class="btn"
      aria-label={words.of(word, name)}
      onClick={() => tick(check.check, !isTicked)}
    >
      {word}
    </button>
  );
}
