import { businessSettings, reportHistory, type ReportRow } from "@boothward/shared-types/report";
import { useEffect, useState } from "preact/hooks";
import { seasonTotals } from "../../reports/seasonTotals.ts";
import { venueFormat } from "../../reports/venueFormat.ts";
import { Choice, Field, FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { findRows, monthsIn } from "../report/findRows.ts";
import { Compared, PastEvening, Totals } from "../report/HistoryParts.tsx";
import { nowMs } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { reports as words } from "../words/en/reports.ts";
import "../styles/report.css";

const yearMs = 366 * 24 * 3_600_000;
const dayMs = 24 * 3_600_000;
const askAgainMs = 2_000;

/** More than these are not looked through by eye: search narrows them. */
const mostShown = 60;

/** The history: evenings that are over, to be found, summed, and compared. */
export function Reports() {
  const [isAll, setAll] = useState(false);
  const [month, setMonth] = useState<string | null>(null);
  const [text, setText] = useState("");
  const [chosen, setChosen] = useState<readonly string[]>([]);
  // By whole days, so that the address does not change each second.
  const today = Math.ceil(nowMs.peek() / dayMs) * dayMs;
  const fromAtMs = isAll ? 0 : Math.max(0, today - yearMs);
  const span = `fromAtMs=${fromAtMs}&toAtMs=${today + dayMs}`;
  const history = useAnswer(`/api/reports?${span}`, reportHistory);
  const business = useAnswer("/api/settings/business", businessSettings);
  const waiting = history.answer?.waiting ?? 0;
  useEffect(() => {
    if (waiting === 0) return;
    const timer = setTimeout(() => void history.again(), askAgainMs);
    return () => clearTimeout(timer);
  }, [history.answer]);
  const all = history.answer?.rows ?? [];
  const rows = findRows(all, { text, month });
  const compared = rows.filter(({ bookingId }) => chosen.includes(bookingId));
  const [one, other] = compared;
  const choose = (bookingId: string) =>
    setChosen(
      chosen.includes(bookingId) ? chosen.filter((each) => each !== bookingId) : [...chosen, bookingId],
    );
  return (
    <Frame title={words.title} bar={<Mark />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{headlineOf(history.answer === null, all, rows)}</h1>
        {waiting > 0 && <p role="status">{words.waiting(String(waiting))}</p>}
      </div>
      <FormRefusal refusal={history.refusal} shown={[]} />
      <div class="cols">
        <div>
          <section class="sheet">
            <form onSubmit={(event) => event.preventDefault()}>
              <Field
                name="text"
                label={words.search}
                hint={words.searchHint}
                value={text}
                onWrite={setText}
                refusal={null}
              />
              <Choice
                name="when"
                label={words.when}
                value={month ?? (isAll ? "all" : "season")}
                refusal={null}
                onChoose={(value) => {
                  const isMonth = value !== "all" && value !== "season";
                  setMonth(isMonth ? value : null);
                  if (!isMonth) setAll(value === "all");
                }}
              >
                <option value="season">{words.season}</option>
                <option value="all">{words.all}</option>
                {monthsIn(all).map((each) => (
                  <option key={each} value={each}>
                    {monthName(each)}
                  </option>
                ))}
              </Choice>
            </form>
            <p class="cap">{words.compareHint}</p>
          </section>
          {one !== undefined && other !== undefined && (
            <Compared rows={[one, other]} clear={() => setChosen([])} />
          )}
          {rows.slice(0, mostShown).map((row) => (
            <PastEvening
              key={row.bookingId}
              row={row}
              isChosen={chosen.includes(row.bookingId)}
              choose={
                chosen.length < 2 || chosen.includes(row.bookingId) ? () => choose(row.bookingId) : null
              }
            />
          ))}
        </div>
        <div>
          {rows.length > 0 && <Totals totals={seasonTotals(rows)} business={business.answer} />}
          {all.length > 0 && waiting === 0 && (
            <a class="btn" href={`/api/reports.csv?${span}`} download>
              {isAll ? words.allAsCsv : words.seasonAsCsv}
            </a>
          )}
        </div>
      </div>
    </Frame>
  );
}

function headlineOf(isAsking: boolean, all: readonly ReportRow[], rows: readonly ReportRow[]): string {
  if (isAsking) return words.asking;
  if (all.length === 0) return words.none;
  if (rows.length === 0) return words.noneFound;
  const { count } = venueFormat("UTC");
  const { evenings, sessions } = seasonTotals(rows);
  return words.count(words.evenings(evenings, count(evenings)), words.sessions(sessions, count(sessions)));
}

/** "June 2026". */
function monthName(month: string): string {
  const name = new Intl.DateTimeFormat("en-GB", { timeZone: "UTC", month: "long", year: "numeric" });
  return name.format(Date.parse(`${month}-01T00:00:00Z`));
}
