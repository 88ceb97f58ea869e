import type { OwnerReport, Report } from "@boothward/shared-types/report";
import { venueFormat, type VenueFormat } from "../../reports/venueFormat.ts";
import { FigureTable } from "../parts/FigureTable.tsx";
import { units } from "../state/signals.ts";
import { formatIn, type Format } from "../../alerts/format.ts";
import { alertNames, report as words } from "../words/en/reports.ts";

type Formats = { venue: VenueFormat; reader: Format };

/** What stands in no client's report: counts by source, paper, cost, heat, silences, alerts. */
export function OwnerPart({ report }: { report: Report }) {
  const { client, owner } = report;
  const formats = { venue: venueFormat(client.zone), reader: formatIn(client.zone, units.value) };
  return (
    <>
      <Facts report={report} {...formats} />
      <Counts owner={owner} {...formats} />
      <Gaps owner={owner} {...formats} />
      <Alerts owner={owner} {...formats} />
    </>
  );
}

function Facts({ report, venue, reader }: { report: Report } & Formats) {
  const { client, owner } = report;
  const shown = (n: number | null) => (n === null ? "?" : venue.count(n));
  const facts: [string, string, string?][] = [
    [words.guests, shown(owner.guests)],
    [words.reprints, shown(client.figures.reprints)],
    [words.digitalOnly, shown(client.figures.digitalOnly)],
    ...paperFacts(owner, venue),
    ...heatFacts(owner, reader),
    ...waitFacts(owner, venue),
  ];
  return (
    <section class="sheet">
      <h2>{words.forYou}</h2>
      <dl class="facts">
        {facts.map(([name, value, more]) => [
          <dt key={name}>{name}</dt>,
          <dd key={`${name} is`}>
            {value}
            {more !== undefined && <small>{more}</small>}
          </dd>,
        ])}
      </dl>
      {owner.cost === null && <p class="small">{words.noPrice}</p>}
    </section>
  );
}

function paperFacts({ paper, cost }: OwnerReport, venue: VenueFormat): [string, string, string?][] {
  const { change, test, spoilt } = paper.wasted;
  const parts = words.wastedParts(venue.count(change), venue.count(test), venue.count(spoilt));
  const rolls = paper.rolls.map(({ atMs, sheets, by, basis }) => {
    const held = sheets === null ? "" : words.rollSheets(venue.count(sheets));
    return words.rollLine(
      venue.clock(atMs),
      held,
      (by === null ? "" : words.rollBy(by)) + words.rollBasis[basis],
    );
  });
  return [
    [words.used, venue.count(paper.sheetsUsed)],
    [words.wasted, venue.count(change + test + spoilt), parts],
    [words.rolls, venue.count(rolls.length), rolls.join(" · ")],
    ...(cost === null ? [] : [[words.cost, moneyOf(cost.amount, cost.currency)] as [string, string]]),
  ];
}

function heatFacts({ inside }: OwnerReport, reader: Format): [string, string, string?][] {
  if (inside === null) return [];
  const degrees = (celsius: number) => reader.temperature(celsius, 1);
  const range = words.insideLine(degrees(inside.minC), degrees(inside.meanC), degrees(inside.maxC));
  return [
    [words.inside, degrees(inside.maxC), range],
    [words.above(reader.temperature(inside.limitC)), reader.minutes(inside.aboveLimitMin * 60_000)],
  ];
}

function waitFacts({ waits }: OwnerReport, venue: VenueFormat): [string, string, string?][] {
  if (waits === null) return [];
  const seconds = (lengthMs: number) => words.seconds(venue.count(lengthMs / 1000));
  const more = words.wait(
    ...([seconds(waits.medianMs), seconds(waits.longestMs)] as const),
    ...([venue.clock(waits.longestAtMs), venue.count(waits.known)] as const),
  );
  return [[words.waits, seconds(waits.medianMs), more]];
}

/** An amount of money as the reader's device writes it. */
export function moneyOf(amount: number, currency: string): string {
  return new Intl.NumberFormat(undefined, { style: "currency", currency }).format(amount);
}

function Counts({ owner, venue }: { owner: OwnerReport } & Formats) {
  const { counts, outside } = owner;
  const { difference } = counts;
  const line = (quantity: string, by: keyof typeof words.sourceWords, n: number, isCounting: boolean) => [
    `${quantity}, ${words.sourceWords[by]}`,
    venue.count(n) + (isCounting ? ` (${words.counting})` : ""),
  ];
  const rows = [
    ...counts.sessions.map(({ by, count }) =>
      line(words.quantity.sessions, by, count, by === counts.sessionsBy),
    ),
    ...counts.sheets.map(({ by, count }) => line(words.quantity.pitches, by, count, by === counts.sheetsBy)),
  ];
  return (
    <section class="sheet">
      <h2>{words.counts}</h2>
      {difference !== null && (
        <p>
          {words.difference(
            ...([words.quantity[difference.quantity], venue.count(difference.counted)] as const),
            ...([venue.count(difference.other), venue.clock(difference.sinceAtMs)] as const),
          )}
        </p>
      )}
      {rows.length > 0 && <FigureTable columns={[words.source, words.count]} rows={rows} />}
      <p class="cap">{words.outside(venue.count(outside.sessions), venue.count(outside.sheets))}</p>
    </section>
  );
}

function Gaps({ owner, venue }: { owner: OwnerReport } & Formats) {
  if (owner.gaps.length === 0) return null;
  return (
    <section class="sheet">
      <h2>{words.gaps}</h2>
      <ul class="trail">
        {owner.gaps.map(({ fromAtMs, toAtMs, sessionsEstimate, sheetsAfter }) => (
          <li key={fromAtMs}>
            <b>{words.gap(venue.clock(fromAtMs), venue.clock(toAtMs))}</b>{" "}
            {sessionsEstimate === null ? words.noEstimate : words.estimate(venue.count(sessionsEstimate))}{" "}
            {sheetsAfter !== null && words.sheetsAfter(venue.count(sheetsAfter))}
          </li>
        ))}
      </ul>
    </section>
  );
}

function Alerts({ owner, venue }: { owner: OwnerReport } & Formats) {
  const after = (atMs: number | null, raisedAtMs: number) =>
    atMs === null ? null : shortLength(atMs - raisedAtMs, venue);
  const rows = owner.alerts.map(({ matter, raisedAtMs, toldAtMs, takenAtMs, takenBy, clearedAtMs }) => {
    const taken = after(takenAtMs, raisedAtMs);
    return [
      ...[alertNames[matter], venue.clock(raisedAtMs), after(toldAtMs, raisedAtMs) ?? words.notTold],
      taken === null ? words.notTaken : takenBy === null ? taken : words.takenBy(taken, takenBy),
      after(clearedAtMs, raisedAtMs) ?? words.notOver,
    ];
  });
  return (
    <section class="sheet">
      <h2>{words.alerts}</h2>
      {owner.met === null ? <p>{words.noAlerts}</p> : <p>{metSentence(owner.met, venue)}</p>}
      {rows.length > 0 && (
        <div class="wide-table">
          <FigureTable columns={words.alertColumns} rows={rows} />
        </div>
      )}
    </section>
  );
}

function metSentence(met: NonNullable<OwnerReport["met"]>, venue: VenueFormat): string {
  const { alerts, taken, medianToldMs, medianTakenMs, longestTakenMs } = met;
  const shown = (lengthMs: number | null) => (lengthMs === null ? null : shortLength(lengthMs, venue));
  const sentence = words.met(alerts, shown(medianToldMs), shown(medianTakenMs), shown(longestTakenMs));
  return alerts > 1 && taken > 0 && taken < alerts
    ? `${sentence} ${words.untaken(alerts - taken)}`
    : sentence;
}

/** Alerts are met within seconds or minutes: "4 s", "12 min". */
function shortLength(lengthMs: number, venue: VenueFormat): string {
  return lengthMs < 60_000 ? words.seconds(venue.count(lengthMs / 1000)) : venue.length(lengthMs);
}
