import { eventOf } from "@boothward/shared-types/booking";
import { knownEventKinds } from "@boothward/shared-types/words";
import { useEffect, useRef } from "preact/hooks";
import { useSaveBooking } from "../plan/useSaveBooking.ts";
import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { failed } from "../words/en/frame.ts";
import { listed } from "../words/en/today.ts";
import { bookingForm as words } from "../words/en/runSheet.ts";
import { Choice, Field, FormRefusal } from "./Field.tsx";
import { FormButtons } from "./FormButtons.tsx";
import { Hours } from "./Hours.tsx";
import { later } from "./later.tsx";
import { Position } from "./Position.tsx";
import { StandingFields } from "./StandingFields.tsx";

const PlanFields = later(
  () => import("../plan/PlanFields.tsx").then((file) => file.PlanFields),
  ({ hasFailed }) => <p role="status">{hasFailed ? failed.unreachable : words.moreWaiting}</p>,
);

const shown = [
  ...["boothId", "client", "place", "eventKind", "zone", "openAtMs", "closeAtMs", "guests"],
  ...["sheetsLoaded", "spareRolls", "attendant", "latitudeDeg", "longitudeDeg"],
  ...["standing.headingDeg", "standing.expectedHighC"],
  ...["printsPerSession", "promisedAtMs", "travelMin", "eventId", "breaks", "power.source"],
  ...["power.volts", "power.breakerA", "power.cord.lengthM", "power.cord.size", "power.batteryWh"],
];

/** The form of a booking, short at first, with more to open; what the dashboard refuses is said at its field. */
export function BookingForm(props: {
  booking: BookingEntry | null;
  /** Another booking is made from it, on a date that is asked for. */
  isCopy: boolean;
  bookings: readonly BookingEntry[];
  booths: readonly BoothEntry[];
  close: () => void;
}) {
  const { booking, isCopy } = props;
  const others = isCopy && booking !== null ? othersOf(booking, props.bookings) : [];
  const nameOf = (boothId: string) => props.booths.find((booth) => booth.boothId === boothId)?.name ?? "?";
  const { refusal, isBusy, submit } = useSaveBooking({
    ...{ booking, isCopy, others, saved: props.close },
  });
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus();
    heading.current?.scrollIntoView({ block: "start" });
  }, []);
  const text = (value: number | string | null | undefined) => (value == null ? "" : String(value));
  return (
    <form onSubmit={(event) => void submit(event)}>
      <h2 ref={heading} tabIndex={-1}>
        {booking === null ? words.new : isCopy ? words.copied(booking.client) : words.changed(booking.client)}
      </h2>
      <Choice
        name="boothId"
        label={words.boothId}
        value={booking?.boothId ?? props.booths[0]?.boothId ?? ""}
        refusal={refusal}
      >
        {props.booths.map((booth) => (
          <option key={booth.boothId} value={booth.boothId}>
            {booth.name}
          </option>
        ))}
      </Choice>
      <Field
        name="client"
        label={words.client}
        required
        maxlength={120}
        defaultValue={text(booking?.client)}
        refusal={refusal}
      />
      <Field
        name="place"
        label={words.place}
        maxlength={120}
        defaultValue={text(booking?.place)}
        refusal={refusal}
      />
      <Field
        name="eventKind"
        label={words.eventKind}
        hint={words.eventKindHint}
        list="event-kinds"
        required
        maxlength={40}
        defaultValue={text(booking?.eventKind)}
        refusal={refusal}
      />
      <datalist id="event-kinds">
        {knownEventKinds.map((kind) => (
          <option key={kind} value={kind} />
        ))}
      </datalist>
      <Hours booking={booking} isCopy={isCopy} refusal={refusal} />
      <div class="two">
        {(["guests", "sheetsLoaded", "spareRolls"] as const).map((name) => (
          <Field
            key={name}
            name={name}
            label={words[name]}
            {...(name === "sheetsLoaded" ? { hint: words.sheetsHint } : {})}
            inputmode="numeric"
            defaultValue={text(booking === null && name === "spareRolls" ? 1 : booking?.[name])}
            refusal={refusal}
          />
        ))}
      </div>
      <Field
        name="attendant"
        label={words.attendant}
        maxlength={80}
        defaultValue={text(booking?.attendant)}
        refusal={refusal}
      />
      <Position booking={booking} refusal={refusal} />
      <StandingFields booking={booking} refusal={refusal} />
      {others.length > 0 && (
        <label class="pick">
          <input type="checkbox" name="withOthers" defaultChecked />
          {words.withOthers(listed(others.map(({ boothId }) => nameOf(boothId))))}
        </label>
      )}
      <PlanFields
        booking={booking === null || !isCopy ? booking : { ...booking, eventId: null }}
        bookings={props.bookings}
        refusal={refusal}
      />
      <FormRefusal refusal={refusal} shown={shown} />
      <FormButtons isBusy={isBusy} word={words.save} cancel={props.close} />
    </form>
  );
}

/** The other booths of its event. */
function othersOf(booking: BookingEntry, bookings: readonly BookingEntry[]): BookingEntry[] {
  return bookings.filter(
    (each) => each.bookingId !== booking.bookingId && eventOf(each) === eventOf(booking),
  );
}
