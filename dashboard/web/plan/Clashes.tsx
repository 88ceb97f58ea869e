import { clashesOf } from "../../planning/clashes.ts";
import type { Clash } from "../../planning/clashes.ts";
import { Icon } from "../parts/Icon.tsx";
import type { BookingEntry } from "../state/apiShapes.ts";
import { booths, units } from "../state/signals.ts";
import { clashWords as words } from "../words/en/runSheet.ts";
import { formatIn } from "../../alerts/format.ts";
import type { Format } from "../../alerts/format.ts";
import "../styles/plan.css";

const minuteMs = 60_000;

type ClashesProps = { booking: BookingEntry; bookings: readonly BookingEntry[] };

/** What of the run sheet cannot be kept beside a booking, each in a sentence; nothing where all can. */
export function Clashes({ booking, bookings }: ClashesProps) {
  const clashes = clashesOf(asHeld(booking), bookings.map(asHeld));
  if (clashes.length === 0) return null;
  return (
    <div class="clash">
      <b>
        <Icon name="plan" />
        {words.title}
      </b>
      {clashes.map((clash) => (
        <p key={clash.other.bookingId}>{clashText(clash, formatIn(booking.zone, units.value))}</p>
      ))}
    </div>
  );
}

/** With the close as it was moved in the evening: that a booth stays longer is known of those that are at work. */
function asHeld(booking: BookingEntry): BookingEntry {
  const held = booths.value.find((booth) => booth.booking?.bookingId === booking.bookingId)?.booking;
  return held == null ? booking : { ...booking, closeAtMs: held.closeAtMs };
}

function clashText({ kind, of, other, gapMin, needsMin, travelMin }: Clash, format: Format): string {
  const { client, openAtMs, closeAtMs } = other;
  if (kind === "overlap" || gapMin === null || needsMin === null)
    return words.overlap(of, client, words.fromTo(format.clock(openAtMs), format.clock(closeAtMs)));
  const minutes = (n: number) => format.minutes(Math.max(0, n) * minuteMs);
  const said = words.tooClose(of, client, minutes(gapMin), minutes(needsMin));
  return travelMin === null ? `${said} ${words.noTravel}` : said;
}
