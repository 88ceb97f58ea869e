import { checksView } from "@boothward/shared-types/planView";
import type { ChecksView, OpeningCheck } from "@boothward/shared-types/planView";
import type { BoothView } from "@boothward/shared-types/view";
import type { ComponentChildren } from "preact";
import { useEffect } from "preact/hooks";
import { CheckLine } from "../checks/CheckLine.tsx";
import { ReadinessSteps } from "../checks/ReadinessSteps.tsx";
import { useSay } from "../desk/useSay.ts";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { booths, formatOf, heardAtMs, slowMs, units } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { checks as words } from "../words/en/checks.ts";
import { asking } from "../words/en/frame.ts";
import { formatIn } from "../../alerts/format.ts";
import type { Format } from "../../alerts/format.ts";
import "../styles/checks.css";

/** What stands between a booth and its doors, for whoever sets it up. */
export function Checks({ boothId }: { boothId: string }) {
  const booth = booths.value.find((each) => each.boothId === boothId) ?? null;
  const bookingId = booth?.booking?.bookingId ?? null;
  if (booth !== null && bookingId !== null) return <ChecksOf booth={booth} bookingId={bookingId} />;
  const isAsked = heardAtMs.value !== null;
  return (
    <Frame title={words.title} bar={<Back boothId={boothId} name={booth?.name ?? ""} />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{isAsked ? words.noEvent(booth?.name ?? "?") : asking}</h1>
        {isAsked && (
          <p>
            {words.noEventMore} <a href="/run-sheet">{words.runSheet}</a>
          </p>
        )}
      </div>
    </Frame>
  );
}

function Back({ boothId, name }: { boothId: string; name: string }) {
  return (
    <a class="back" href={`/booths/${encodeURIComponent(boothId)}`}>
      <Icon name="back" />
      {name}
    </a>
  );
}

function ChecksOf({ booth, bookingId }: { booth: BoothView; bookingId: string }) {
  const address = `/api/bookings/${encodeURIComponent(bookingId)}/checks`;
  const { answer, refusal, again } = useAnswer(address, checksView);
  const said = useSay(booth.boothId);
  const beat = slowMs.value;
  // What the booth sees comes by the live socket, and time itself proves some lines wrong.
  useEffect(() => void again(), [booth, beat]);
  const format = answer === null ? formatOf(booth) : formatIn(answer.zone, units.value);
  const tick = async (check: OpeningCheck["check"], isDone: boolean) => {
    if ((await said.say({ kind: "check", check, isDone })) !== null) await again();
  };
  return (
    <Frame
      title={`${words.title}, ${booth.name}`}
      bar={
        <>
          <Back boothId={booth.boothId} name={booth.name} />
          <span>
            {`${booth.booking?.place ?? ""} · `}
            <b>{format.clock(beat)}</b>
          </span>
        </>
      }
    >
      <div class="verdict">
        <h1 tabIndex={-1} aria-live="polite">
          {answer === null ? words.asking : verdictOf(answer, beat, format)}
        </h1>
        {answer !== null && <p>{moreOf(answer, format)}</p>}
      </div>
      <FormRefusal refusal={refusal ?? said.refusal} shown={[]} />
      {answer !== null && (
        <Lists view={answer} format={format} tick={(check, isDone) => void tick(check, isDone)}>
          <ReadinessSteps view={answer} format={format} said={said} again={() => void again()} />
        </Lists>
      )}
    </Frame>
  );
}

const isOpenLine = ({ state }: OpeningCheck) => state === "toDo" || state === "question";
const isDoneLine = ({ state }: OpeningCheck) => state === "seen" || state === "ticked";

function verdictOf(view: ChecksView, nowMs: number, format: Format): string {
  const n = view.checks.filter(isOpenLine).length;
  if (nowMs >= view.closeAtMs) return words.over(format.clock(view.closeAtMs));
  const at = format.clock(view.openAtMs);
  if (nowMs >= view.openAtMs) return n === 0 ? words.openAllDone(at) : words.openToDo(n, at);
  return n === 0 ? words.allDone(at) : words.toDo(n, at);
}

function moreOf(view: ChecksView, format: Format): string {
  const { checks, readyByAtMs, openAtMs } = view;
  const promised = readyByAtMs < openAtMs ? words.promised(format.clock(readyByAtMs)) : "";
  const counted = words.counted(checks.filter(isDoneLine).length, checks.length);
  const notSeen = words.notSeen(checks.filter(({ state }) => state === "notPossible").length);
  return [promised, counted, notSeen].filter((part) => part !== "").join(" ");
}

type ListsProps = {
  view: ChecksView;
  format: Format;
  tick: (check: OpeningCheck["check"], isDone: boolean) => void;
  /** Where the booth stands, which follows what is to do. */
  children: ComponentChildren;
};

/** What is to do first, and where the booth stands; what cannot be seen here; what is done last. */
function Lists({ view, format, tick, children }: ListsProps) {
  const list = (name: string, checks: readonly OpeningCheck[]) =>
    checks.length > 0 && (
      <section class="sheet">
        <h2>{name}</h2>
        <ul class="checks">
          {checks.map((check) => (
            <CheckLine key={check.check} check={check} format={format} tick={tick} />
          ))}
        </ul>
      </section>
    );
  return (
    <div class="cols">
      <div>
        {list(words.lists.toDo, view.checks.filter(isOpenLine))}
        {children}
      </div>
      <div>
        {list(
          words.lists.notSeen,
          view.checks.filter(({ state }) => state === "notPossible"),
        )}
        {list(words.lists.seen, view.checks.filter(isDoneLine))}
        <p class="small">{words.seenNote}</p>
        <div class="row">
          {(["load-out", "door-sign"] as const).map((page) => (
            <a key={page} class="btn" href={`/run-sheet/${encodeURIComponent(view.bookingId)}/${page}`}>
              {words.pages[page]}
            </a>
          ))}
        </div>
      </div>
    </div>
  );
}
