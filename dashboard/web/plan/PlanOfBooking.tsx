import { planView } from "@boothward/shared-types/planView";
import type { PlanView, RollsToBring } from "@boothward/shared-types/planView";
import { FormRefusal } from "../parts/Field.tsx";
import { Icon } from "../parts/Icon.tsx";
import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { nowMs, units } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { plan as words } from "../words/en/plan.ts";
import { formatIn } from "../../alerts/format.ts";
import type { Format } from "../../alerts/format.ts";
import { PowerResult } from "./PowerResult.tsx";
import { sunText } from "./sunText.ts";
import { SwapBooth } from "./SwapBooth.tsx";
import "../styles/plan.css";

type PlanOfBookingProps = {
  booking: BookingEntry;
  booths: readonly BoothEntry[];
  copy: () => void;
  changed: () => void;
};

/** What follows from a booking: the paper to bring, power, sun, and the lists to print. */
export function PlanOfBooking({ booking, booths, copy, changed }: PlanOfBookingProps) {
  const address = `/api/bookings/${encodeURIComponent(booking.bookingId)}/plan`;
  const { answer, refusal } = useAnswer(address, planView);
  const format = formatIn(booking.zone, units.value);
  const own = `/run-sheet/${encodeURIComponent(booking.bookingId)}`;
  const isOn = booking.openAtMs < nowMs.value && nowMs.value < booking.closeAtMs;
  return (
    <div class="plan-of">
      <FormRefusal refusal={refusal} shown={[]} />
      {answer === null ? (
        refusal === null && <p role="status">{words.asking}</p>
      ) : (
        <Parts plan={answer} format={format} />
      )}
      {isOn && <SwapBooth booking={booking} booths={booths} changed={changed} />}
      <div class="row">
        <a class="btn" href={`${own}/load-out`}>
          {words.loadOut}
        </a>
        <a class="btn" href={`${own}/door-sign`}>
          {words.doorSign}
        </a>
        <button type="button" class="btn" onClick={copy}>
          {words.copy}
        </button>
      </div>
    </div>
  );
}

function Parts({ plan, format }: { plan: PlanView; format: Format }) {
  const { notes } = plan.booking;
  return (
    <>
      <h4>{words.rolls}</h4>
      <Rolls rolls={plan.rolls} format={format} />
      <h4>{words.power}</h4>
      {plan.power === null ? <p>{words.noPower}</p> : <PowerResult sum={plan.power} />}
      <h4>{words.sun}</h4>
      <p>{sunText(plan.sun, format)}</p>
      {notes !== "" && (
        <>
          <h4>{words.notes}</h4>
          <p class="written">{notes}</p>
        </>
      )}
    </>
  );
}

function Rolls({ rolls, format }: { rolls: RollsToBring; format: Format }) {
  const { bring, forEvening, kitSheets, wasteSheets, loadedSheets, short, basis, pastEvenings } = rolls;
  const count = (n: number) => format.count(n);
  return (
    <>
      <p>
        <b>{words.bring(bring, count(kitSheets), forEvening)}</b>
      </p>
      {short > 0 && (
        <p class="level near">
          <Icon name="plan" />
          <span>{words.short(short)}</span>
        </p>
      )}
      <p class="small">
        {[
          words.why(count(rolls.mostSheets), count(rolls.usualSheets)),
          ...(loadedSheets === null ? [] : [words.beside(count(loadedSheets))]),
          words.each(count(kitSheets - wasteSheets), count(wasteSheets)),
          words.basis[basis](pastEvenings),
        ].join(" ")}
      </p>
    </>
  );
}
