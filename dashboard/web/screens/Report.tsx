import {
  businessSettings,
  report as reportShape,
  type Report as ReportOf,
} from "@boothward/shared-types/report";
import { useState } from "preact/hooks";
import { CorrectForm } from "../report/CorrectForm.tsx";
import { OwnerPart } from "../report/OwnerPart.tsx";
import { ReportPaper } from "../report/ReportPaper.tsx";
import { ShareLinks } from "../report/ShareLinks.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { later } from "../parts/later.tsx";
import { useAnswer } from "../state/useAnswer.ts";
import { replay as replayWords } from "../words/en/replay.ts";
import { report as words } from "../words/en/reports.ts";

const Replay = later(
  () => import("../replay/Replay.tsx").then((file) => file.Replay),
  () => <p role="status">{replayWords.asking}</p>,
);

/** The report of one evening for the owner: the client's sheet, then what is the owner's alone. */
export function Report({ bookingId }: { bookingId: string }) {
  const address = `/api/reports/${encodeURIComponent(bookingId)}`;
  const { answer, refusal } = useAnswer(address, reportShape);
  const business = useAnswer("/api/settings/business", businessSettings);
  const [corrected, setCorrected] = useState<ReportOf | null>(null);
  const report = corrected ?? answer;
  const shown = business.answer && {
    name: business.answer.name,
    logoAddress: business.answer.logo === null ? null : "/api/settings/business/logo",
  };
  return (
    <Frame title={report === null ? words.title : report.client.client} bar={<BackToReports />}>
      {report === null ? (
        <div class="verdict">
          <h1 tabIndex={-1}>{refusal === null ? words.asking : words.title}</h1>
          <FormRefusal refusal={refusal} shown={[]} />
        </div>
      ) : (
        <div class="report">
          {!report.client.isOver && <p class="notice">{words.goingOn}</p>}
          <ReportPaper report={report.client} business={shown} />
          <div class="noprint">
            <Files address={address} />
            <ShareLinks bookingId={bookingId} />
            <OwnerPart report={report} />
            {report.client.isOver && <Forecast bookingId={bookingId} />}
            <CorrectForm report={report} corrected={setCorrected} />
            <Again bookingId={bookingId} />
          </div>
        </div>
      )}
    </Frame>
  );
}

function BackToReports() {
  return (
    <a class="back" href="/reports">
      <Icon name="back" />
      {words.back}
    </a>
  );
}

function Files({ address }: { address: string }) {
  return (
    <div class="row files">
      <a class="btn main" href={`${address}/report.pdf`} download>
        {words.pdf}
      </a>
      <a class="btn" href={`${address}/client.csv`} download>
        {words.clientCsv}
      </a>
      <a class="btn" href={`${address}/report.csv`} download>
        {words.ownerCsv}
      </a>
    </div>
  );
}

function Forecast({ bookingId }: { bookingId: string }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <section class="sheet">
      <h2>{words.forecast}</h2>
      {isOpen ? (
        <Replay bookingId={bookingId} />
      ) : (
        <button type="button" class="btn" onClick={() => setOpen(true)}>
          {words.forecastOpen}
        </button>
      )}
    </section>
  );
}

function Again({ bookingId }: { bookingId: string }) {
  return (
    <section class="sheet">
      <p class="small">{words.copyHint}</p>
      <div class="row">
        <a class="btn" href={`/run-sheet?copy=${encodeURIComponent(bookingId)}`}>
          {words.copy}
        </a>
      </div>
    </section>
  );
}
