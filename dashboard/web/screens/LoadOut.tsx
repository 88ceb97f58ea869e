import { planView } from "@boothward/shared-types/planView";
import type { LoadLine, PlanView } from "@boothward/shared-types/planView";
import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { useSay } from "../desk/useSay.ts";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame } from "../parts/Frame.tsx";
import { BackFromPlan } from "../plan/BackFromPlan.tsx";
import { RollsAboard } from "../plan/RollsAboard.tsx";
import { me, units } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { loadOutWords as words, loadWords } from "../words/en/plan.ts";
import { formatIn } from "../../alerts/format.ts";
import type { Format } from "../../alerts/format.ts";
import "../styles/plan.css";

/** What goes into the van for a booking, to tick while it is loaded, or to print. */
export function LoadOut({ bookingId }: { bookingId: string }) {
  const address = `/api/bookings/${encodeURIComponent(bookingId)}/plan`;
  const { answer, refusal, again } = useAnswer(address, planView);
  return (
    <Frame title={words.title} bar={<BackFromPlan boothId={answer?.booking.boothId ?? null} />}>
      <FormRefusal refusal={refusal} shown={[]} />
      {answer === null ? (
        <div class="verdict">
          <h1 tabIndex={-1}>{refusal === null ? words.asking : words.gone}</h1>
        </div>
      ) : (
        <List plan={answer} again={again} />
      )}
    </Frame>
  );
}

function List({ plan, again }: { plan: PlanView; again: () => Promise<void> }) {
  const { booking, boothName, loadOut } = plan;
  const format = formatIn(booking.zone, units.value);
  const { refusal, say } = useSay(booking.boothId);
  // What was ticked shows so at once, and as it was when the dashboard did not take it.
  const [said, setSaid] = useState<ReadonlyMap<string, boolean>>(new Map());
  const isIn = ({ check, tick }: LoadLine) => said.get(check) ?? tick !== null;
  const left = loadOut.filter((line) => !isIn(line)).length;
  const tick = async (check: string, isDone: boolean) => {
    setSaid((before) => new Map(before).set(check, isDone));
    if ((await say({ kind: "check", check, isDone })) !== null) await again();
    setSaid((before) => new Map([...before].filter(([each]) => each !== check)));
  };
  const { openAtMs, closeAtMs } = booking;
  return (
    <>
      <div class="verdict">
        <h1 tabIndex={-1} aria-live="polite">
          <span class="noprint">{left === 0 ? words.allIn : words.toLoad(left)}</span>
          <span class="onlyprint">{words.title}</span>
        </h1>
        <p>
          <b>{words.event(boothName, booking.client)}</b>
          {booking.place !== "" && ` · ${booking.place}`}
        </p>
        <p class="small">
          {words.when(format.day(openAtMs), format.clock(openAtMs), format.clock(closeAtMs))}
        </p>
      </div>
      <FormRefusal refusal={refusal} shown={[]} />
      <section class="sheet">
        <ul class="load">
          {loadOut.map((line) => (
            <Line
              key={line.check}
              line={line}
              isIn={isIn(line)}
              format={format}
              tick={(isDone) => void tick(line.check, isDone)}
            >
              {line.item === "rolls" && me.value.role === "owner" && (
                <RollsAboard
                  {...{ bookingId: booking.bookingId, boothName }}
                  rolls={line.count ?? 0}
                  isIn={isIn(line)}
                />
              )}
            </Line>
          ))}
        </ul>
      </section>
      {booking.notes !== "" && <p class="written">{booking.notes}</p>}
      <div class="row noprint">
        <button type="button" class="btn" onClick={() => window.print()}>
          {words.print}
        </button>
      </div>
    </>
  );
}

type LineProps = {
  line: LoadLine;
  isIn: boolean;
  format: Format;
  tick: (isDone: boolean) => void;
  children: ComponentChildren;
};

function Line({ line, isIn, format, tick, children }: LineProps) {
  const name = loadWords[line.item];
  return (
    <li>
      <label class="pick">
        <input type="checkbox" checked={isIn} onChange={(event) => tick(event.currentTarget.checked)} />
        <span>
          {line.count === null ? name : words.count(line.count, name)}
          {line.tick !== null && (
            <small class="noprint">{words.by(line.tick.by, format.clock(line.tick.atMs))}</small>
          )}
        </span>
      </label>
      {children}
    </li>
  );
}
