import { useState } from "preact/hooks";
import { Clashes } from "../plan/Clashes.tsx";
import { done } from "../state/api.ts";
import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { nowMs, units } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { sunDoor as sunWords } from "../words/en/sunDoor.ts";
import { replay as replayWords } from "../words/en/replay.ts";
import { runSheet as words } from "../words/en/runSheet.ts";
import { formatIn } from "../../alerts/format.ts";
import { wallOf } from "../words/zonedTime.ts";
import { FormRefusal } from "./Field.tsx";
import { later } from "./later.tsx";
import { LaterSunPlan } from "./LaterSunPlan.tsx";
import { TwoTaps } from "./TwoTaps.tsx";

const Replay = later(
  () => import("../replay/Replay.tsx").then((file) => file.Replay),
  () => <p role="status">{replayWords.asking}</p>,
);

const PlanOfBooking = later(
  () => import("../plan/PlanOfBooking.tsx").then((file) => file.PlanOfBooking),
  () => <p role="status">{words.planWaiting}</p>,
);

/** Checks are made from half a day before the doors on: that long a booth's set-up belongs to its booking. */
const checksFromMs = 12 * 3_600_000;

type BookingListProps = {
  bookings: readonly BookingEntry[];
  booths: readonly BoothEntry[];
  change: (booking: BookingEntry) => void;
  copy: (booking: BookingEntry) => void;
  changed: () => void;
};

/** What is to come, by day; then what is past, the latest first. */
export function BookingList(props: BookingListProps) {
  const now = nowMs.value;
  const ahead = props.bookings
    .filter((booking) => booking.closeAtMs >= now)
    .sort((a, b) => a.openAtMs - b.openAtMs);
  const past = props.bookings
    .filter((booking) => booking.closeAtMs < now)
    .sort((a, b) => b.openAtMs - a.openAtMs);
  return (
    <div>
      {byDay(ahead).map(([day, bookings]) => (
        <section key={day}>
          <h2 class="day">{day}</h2>
          {bookings.map((booking) => (
            <Entry key={booking.bookingId} {...props} booking={booking} />
          ))}
        </section>
      ))}
      {past.length > 0 && (
        <details>
          <summary>{`${words.past} (${past.length})`}</summary>
          {byDay(past).map(([day, bookings]) => (
            <section key={day}>
              <h2 class="day">{day}</h2>
              {bookings.map((booking) => (
                <Entry key={booking.bookingId} {...props} booking={booking} />
              ))}
            </section>
          ))}
        </details>
      )}
    </div>
  );
}

/** Bookings under the day of their opening, at their place. */
function byDay(bookings: readonly BookingEntry[]): [string, BookingEntry[]][] {
  const days = new Map<string, BookingEntry[]>();
  for (const booking of bookings) {
    const day = formatIn(booking.zone, units.value).day(booking.openAtMs);
    days.set(day, [...(days.get(day) ?? []), booking]);
  }
  return [...days];
}

type EntryProps = BookingListProps & { booking: BookingEntry };

function Entry({ booking, bookings, booths, change, copy, changed }: EntryProps) {
  const page = usePage();
  const { refusal, send } = useSend();
  const [isReplayed, setReplayed] = useState(false);
  const [isSunOpen, setSunOpen] = useState(false);
  const [isPlanOpen, setPlanOpen] = useState(false);
  const booth = booths.find((each) => each.boothId === booking.boothId);
  const name = booth?.name ?? "?";
  const isPast = booking.closeAtMs < nowMs.value;
  const format = formatIn(booking.zone, units.value);
  const isOvernight =
    wallOf(booking.openAtMs, booking.zone).date !== wallOf(booking.closeAtMs, booking.zone).date;
  const details = [
    booking.eventKind,
    ...(booking.attendant === null ? [] : [booking.attendant]),
    ...(booking.guests === null ? [] : [words.guests(format.count(booking.guests))]),
    words.spares(booking.spareRolls),
    ...booking.breaks.map(({ fromAtMs, toAtMs }) =>
      words.pause(format.clock(fromAtMs), format.clock(toAtMs)),
    ),
  ];
  const remove = async () => {
    const address = `/api/bookings/${encodeURIComponent(booking.bookingId)}`;
    if ((await send(() => page.call("DELETE", address, done))) !== null) changed();
  };
  return (
    <article class="sheet entry">
      <h3>{`${name} · ${booking.client}`}</h3>
      <p>
        <b>{words.hours(format.clock(booking.openAtMs), format.clock(booking.closeAtMs), isOvernight)}</b>
        {booking.place !== "" && ` · ${booking.place}`}
      </p>
      <p class="small">{details.join(" · ")}</p>
      {!isPast && <Clashes booking={booking} bookings={bookings} />}
      <FormRefusal refusal={refusal} shown={[]} />
      {isReplayed && <Replay bookingId={booking.bookingId} />}
      {isSunOpen && (
        <LaterSunPlan title={`${name} · ${booking.place}`} box={booth?.box ?? null} planned={booking} />
      )}
      {isPlanOpen && (
        <PlanOfBooking
          key={JSON.stringify(booking)}
          booking={booking}
          booths={booths}
          copy={() => copy(booking)}
          changed={changed}
        />
      )}
      <div class="row">
        {!isPast && nowMs.value >= booking.openAtMs - checksFromMs && (
          <a class="btn" href={`/booths/${encodeURIComponent(booking.boothId)}/checks`}>
            {words.checks}
          </a>
        )}
        <button type="button" class="btn" aria-expanded={isPlanOpen} onClick={() => setPlanOpen(!isPlanOpen)}>
          {words.plan}
        </button>
        {isPast && (
          <button
            type="button"
            class="btn"
            aria-expanded={isReplayed}
            onClick={() => setReplayed(!isReplayed)}
          >
            {replayWords.open}
          </button>
        )}
        {booth !== undefined && (booth.isTrailer || booth.box !== null) && (
          <button type="button" class="btn" aria-expanded={isSunOpen} onClick={() => setSunOpen(!isSunOpen)}>
            {sunWords.open}
          </button>
        )}
        <button type="button" class="btn" onClick={() => change(booking)}>
          {words.change}
        </button>
        <TwoTaps
          word={words.remove}
          ask={words.removeAsk(booking.client)}
          yes={words.removeYes}
          no={words.removeNo}
          act={() => void remove()}
        />
      </div>
    </article>
  );
}
