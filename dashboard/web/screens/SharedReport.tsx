import { sharedReport } from "@boothward/shared-types/report";
import { ReportPaper } from "../report/ReportPaper.tsx";
import { Frame } from "../parts/Frame.tsx";
import { useAnswer } from "../state/useAnswer.ts";
import { askingReport } from "../words/en/frame.ts";
import { report as words } from "../words/en/reports.ts";

/** What a client opens by a link: the sheet, to be read, printed and saved, without a sign-in. */
export function SharedReport({ token }: { token: string }) {
  const address = `/api/shared-reports/${encodeURIComponent(token)}`;
  const { answer, refusal } = useAnswer(address, sharedReport);
  if (answer === null)
    return (
      <Frame title={words.title} bar={null} isBare>
        <div class="verdict">
          <h1 tabIndex={-1}>{refusal === null ? askingReport : words.gone}</h1>
          {refusal !== null && <p>{refusal.error === "noSuchReport" ? words.goneLead : refusal.sentence}</p>}
        </div>
      </Frame>
    );
  const { report, business } = answer;
  const logoAddress = business.hasLogo ? `${address}/logo` : null;
  const name = business.name === "" ? null : <b>{business.name}</b>;
  return (
    <Frame title={report.client} bar={name} isBare>
      <div class="report">
        <ReportPaper report={report} business={{ name: business.name, logoAddress }} />
        <div class="row files noprint">
          <button type="button" class="btn main" onClick={() => window.print()}>
            {words.print}
          </button>
          <a class="btn" href={`${address}/report.pdf`} download>
            PDF
          </a>
          <a class="btn" href={`${address}/report.csv`} download>
            {words.clientCsv}
          </a>
        </div>
      </div>
    </Frame>
  );
}
