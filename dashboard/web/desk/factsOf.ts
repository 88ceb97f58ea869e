import type { BoothView } from "@boothward/shared-types/view";
import { dewPointC } from "../../forecast/air/dewPoint.ts";
import { heatForPeople } from "../../forecast/air/heatForPeople.ts";
import { lengthText } from "../words/adviceWords.ts";
import { printerWords } from "../words/printerWords.ts";
import { figureText } from "../words/boothSentence.ts";
import { countedBy, faultWords, facts as words } from "../words/en/facts.ts";
import { listed } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** One line of the list of facts. */
export type Fact = { name: string; text: string; note: string };

const fact = (name: string, text: string | null, note = ""): Fact => ({
  name,
  text: text ?? words.unknown,
  note,
});

/** All that is known of a booth, in words; what is not known says so. */
export function factsOf(booth: BoothView, format: Format): Fact[] {
  return [
    ...mediaFacts(booth, format),
    ...countFacts(booth, format),
    ...printerFacts(booth, format),
    ...waitFacts(booth, format),
    ...surroundings(booth, format),
    ...bookingFacts(booth, format),
    ...booth.faults.map((each) =>
      fact(
        each.source,
        faultWords[each.fault],
        `${format.clock(each.sinceAtMs)}${each.detail === null ? "" : `: ${each.detail}`}`,
      ),
    ),
    ...(booth.keptAside > 0 ? [fact(words.keptAside, words.keptItems(booth.keptAside))] : []),
  ];
}

function mediaFacts({ media, outlook }: BoothView, format: Format): Fact[] {
  if (media === null) return [fact(words.left, null)];
  const known = words.figure[media.figure](format.clock(media.atMs), media.confirmedBy);
  const isSure = media.lowSheets === media.highSheets;
  const band = words.between(format.count(media.lowSheets), format.count(media.highSheets));
  const partial = media.partialRolls.map((sheets) => format.count(sheets));
  return [
    fact(words.left, figureText(media, format), isSure ? known : `${band}, ${known}`),
    ...(media.rollFittedAtMs === null ? [] : [fact(words.fitted, format.clock(media.rollFittedAtMs))]),
    ...(media.spareRolls === null
      ? []
      : [
          fact(
            words.spares,
            format.count(media.spareRolls),
            partial.length === 0 ? words.sparesNote : words.partial(listed(partial)),
          ),
        ]),
    ...(outlook.media === null ? [] : [fact(words.rate, format.count(outlook.media.sheetsPerHour))]),
  ];
}

/** What was counted, each with what it was counted by; what did not happen has no line. */
function countFacts({ counts }: BoothView, format: Format): Fact[] {
  const { sessions, pitches, sessionsBy, pitchesBy, difference } = counts;
  const each = sessions === 0 ? [] : [words.each((pitches / sessions).toFixed(1))];
  const byPitches = pitchesBy === null ? countedBy.nothing : countedBy.pitches[pitchesBy];
  const some = (name: string, n: number) => (n === 0 ? [] : [fact(name, format.count(n))]);
  return [
    fact(
      words.sessions,
      format.count(sessions),
      sessionsBy === null ? countedBy.nothing : countedBy.sessions[sessionsBy],
    ),
    fact(words.used, format.count(pitches), [byPitches, ...each].join(", ")),
    ...some(words.digitalOnly, counts.digitalOnly),
    ...some(words.reprints, counts.reprints),
    ...some(words.tests, counts.testPitches),
    ...(difference === null ? [] : [differenceFact(difference, format)]),
  ];
}

function differenceFact(found: NonNullable<BoothView["counts"]["difference"]>, format: Format): Fact {
  const by: Record<string, string> = countedBy[found.quantity];
  return fact(
    words.differ,
    words.differs(format.count(found.other), by[found.otherBy] ?? found.otherBy, format.count(found.counted)),
    words.differsNote(
      found.quantity === "sessions" ? words.sessions : words.used,
      format.clock(found.sinceAtMs),
    ),
  );
}

function printerFacts({ printer }: BoothView, format: Format): Fact[] {
  if (printer === null) return [fact(words.printer, null)];
  const state = printerWords(printer);
  return [
    fact(words.printer, state === "" ? null : state, format.clock(printer.sinceAtMs)),
    fact(words.waiting, printer.queuedJobs === null ? null : format.count(printer.queuedJobs)),
  ];
}

function waitFacts({ outlook }: BoothView, format: Format): Fact[] {
  const waits = outlook.media?.waits ?? null;
  if (waits === null) return [];
  return [
    fact(words.printWait, lengthText(waits.printMs, format)),
    ...(waits.boothMs === null ? [] : [fact(words.boothWait, lengthText(waits.boothMs, format))]),
  ];
}

function surroundings(booth: BoothView, format: Format): Fact[] {
  const { inside, power, clockOffMs } = booth;
  return [
    inside === null
      ? fact(words.inside, null)
      : fact(words.inside, format.temperature(inside.insideC, 1), changeWords(inside, format)),
    ...airFacts(booth, format),
    ...(inside?.outsideC == null ? [] : [fact(words.outside, format.temperature(inside.outsideC, 1))]),
    power === null
      ? fact(words.power, null)
      : fact(
          words.power,
          power.isOnMains
            ? words.mains
            : words.battery(power.batteryPct === null ? null : format.count(power.batteryPct)),
          format.clock(power.sinceAtMs),
        ),
    clockFact(clockOffMs, format),
    fact(words.link, booth.isLinked ? words.linked : words.unlinked),
  ];
}

/** What the air means for paper and people; nothing where no hygrometer is heard. */
function airFacts({ inside, isTrailer }: BoothView, format: Format): Fact[] {
  if (inside === null || inside.humidityPct === null) return [];
  const { insideC, humidityPct } = inside;
  // Whether doors and hatches are open is not known here: a trailer counts as closed.
  const { feelsC, category, cautions } = heatForPeople({
    ...{ insideC, humidityPct, isInSun: false, isClosed: isTrailer },
  });
  const feels = words.feels(
    format.temperature(feelsC),
    category === null ? null : words.heatCategory[category],
  );
  return [
    fact(words.humidity, words.pct(format.count(humidityPct))),
    fact(words.dewPoint, format.temperature(dewPointC(insideC, humidityPct), 1), words.dewNote),
    fact(words.people, feels, cautions.map((each) => words.heatCaution[each]).join(" ")),
  ];
}

function changeWords(inside: NonNullable<BoothView["inside"]>, format: Format): string {
  const read = words.readAt(format.clock(inside.atMs));
  if (inside.per15MinC === null) return read;
  const isSteady = Math.abs(inside.per15MinC) < 0.05;
  const change = isSteady
    ? words.steady
    : words.per15(format.degrees(Math.abs(inside.per15MinC)), inside.per15MinC > 0);
  return `${change}, ${read}`;
}

function clockFact(offMs: number | null, format: Format): Fact {
  if (offMs === null) return fact(words.clock, null);
  const isRight = Math.abs(offMs) < 1000;
  return isRight
    ? fact(words.clock, words.clockRight)
    : fact(words.clock, words.clockOff(format.age(Math.abs(offMs)), offMs > 0), words.corrected);
}

function bookingFacts({ booking }: BoothView, format: Format): Fact[] {
  if (booking === null) return [];
  return [
    fact(
      words.event,
      booking.client,
      `${format.clock(booking.openAtMs)} – ${format.clock(booking.closeAtMs)}`,
    ),
    ...(booking.attendant === null ? [] : [fact(words.attendant, booking.attendant)]),
    ...(booking.guests === null ? [] : [fact(words.guests, format.count(booking.guests))]),
  ];
}
