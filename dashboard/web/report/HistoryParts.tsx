import type { BusinessSettings, ReportRow, SeasonTotals } from "@boothward/shared-types/report";
import { venueFormat } from "../../reports/venueFormat.ts";
import { FigureTable } from "../parts/FigureTable.tsx";
import { reports as words } from "../words/en/reports.ts";
import { moneyOf } from "./OwnerPart.tsx";

const format = venueFormat("UTC");

/** Sums over the evenings that are shown. */
export function Totals({ totals, business }: { totals: SeasonTotals; business: BusinessSettings | null }) {
  const known = (n: number, unknown: number) =>
    format.count(n) + (unknown === 0 ? "" : words.notKnown(unknown));
  const { unknown } = totals;
  const price = business?.pricePerRoll ?? null;
  const facts = [
    [words.events, format.count(totals.events)],
    [words.boothEvenings, format.count(totals.evenings)],
    [words.sessionsHead, known(totals.sessions, unknown.sessions)],
    [words.prints, known(totals.prints, unknown.prints)],
    [words.sheets, known(totals.sheets, unknown.sheets)],
    [words.used, format.count(totals.sheetsUsed)],
    [words.wasted, format.count(totals.wastedSheets)],
    [words.rolls, format.count(totals.rollsFitted)],
    [words.kits, totals.kitsUsed.toFixed(1)],
    ...(price === null || business === null
      ? []
      : [[words.cost, moneyOf(totals.kitsUsed * price, business.currency)]]),
    [words.ready, words.readyOf(format.length(totals.readyMs), format.length(totals.promisedMs))],
    [words.stopped, format.length(totals.stoppedMs)],
    [words.unknown, format.length(totals.unknownMs)],
  ];
  return (
    <section class="sheet">
      <h2>{words.totals}</h2>
      <dl class="facts">
        {facts.map(([name = "", value = ""]) => [
          <dt key={name}>{name}</dt>,
          <dd key={`${name} is`}>{value}</dd>,
        ])}
      </dl>
    </section>
  );
}

/** One evening of the history, with its figures and whether it is to be compared. */
export function PastEvening(props: { row: ReportRow; isChosen: boolean; choose: (() => void) | null }) {
  const { row, choose } = props;
  const { day } = venueFormat(row.zone);
  const notes = [...(row.isCorrected ? [words.corrected] : []), ...(row.isInvented ? [words.invented] : [])];
  const where = [row.eventKind, row.boothName, row.place].filter((each) => each !== "").join(" · ");
  return (
    <article class="sheet past-evening">
      <h3>
        <a href={`/reports/${encodeURIComponent(row.bookingId)}`}>{row.client}</a>
      </h3>
      <label class="pick">
        <input
          type="checkbox"
          checked={props.isChosen}
          disabled={choose === null}
          onChange={() => choose?.()}
          aria-label={words.compareWith(`${row.client}, ${row.boothName}`)}
        />
        {words.compare}
      </label>
      <p class="small">{`${day(row.openAtMs)} · ${where}`}</p>
      <p>{figuresOf(row).join(" · ")}</p>
      {notes.length > 0 && <p class="small">{notes.join(", ")}</p>}
    </article>
  );
}

function figuresOf({ figures, readyMs, promisedMs }: ReportRow): string[] {
  const { sessions, prints } = figures;
  return [
    sessions === null ? `${words.sessionsHead}: ?` : words.sessions(sessions, format.count(sessions)),
    `${words.printsHead}: ${prints === null ? "?" : format.count(prints)}`,
    `${words.readyHead} ${words.readyOf(format.length(readyMs), format.length(promisedMs))}`,
  ];
}

/** Two evenings beside each other, figure by figure. */
export function Compared({ rows, clear }: { rows: readonly [ReportRow, ReportRow]; clear: () => void }) {
  const shown = (n: number | null) => (n === null ? "?" : format.count(n));
  const of = (row: ReportRow): string[] => {
    const { clock, day } = venueFormat(row.zone);
    const { figures, busiest } = row;
    return [
      ...[day(row.openAtMs), row.boothName, row.eventKind],
      ...[shown(figures.sessions), shown(figures.prints), shown(figures.sheets), shown(figures.reprints)],
      ...[shown(row.sheetsUsed), shown(row.wastedSheets), shown(row.rollsFitted)],
      words.readyOf(format.length(row.readyMs), format.length(row.promisedMs)),
      ...[format.length(row.stoppedMs), format.length(row.unknownMs)],
      busiest === null ? "–" : `${clock(busiest.atMs)}, ${busiest.sessions}`,
    ];
  };
  const [first, second] = rows.map(of);
  return (
    <section class="sheet">
      <h2>{words.compareTitle}</h2>
      <div class="wide-table">
        <FigureTable
          columns={[words.figure, ...rows.map(({ client, boothName }) => `${client}, ${boothName}`)]}
          rows={compareNames.map((name, at) => [name, first?.[at] ?? "", second?.[at] ?? ""])}
        />
      </div>
      <div class="row">
        <button type="button" class="btn" onClick={clear}>
          {words.compareClear}
        </button>
      </div>
    </section>
  );
}

const compareNames = [
  ...["Day", "Booth", "Kind"],
  ...[words.sessionsHead, words.prints, words.sheets, "Reprints, sheets"],
  ...[words.used, words.wasted, words.rolls, words.ready, words.stopped, words.unknown, words.busiest],
];
