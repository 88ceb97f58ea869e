import type { BoothView } from "@boothward/shared-types/view";
import { Age } from "../parts/Age.tsx";
import { AlertSheet } from "../parts/AlertSheet.tsx";
import { BoothChip } from "../parts/Chip.tsx";
import { BoothCharts } from "../parts/BoothCharts.tsx";
import { EveningSheet } from "../parts/EveningSheet.tsx";
import { Frame } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { PaperActions, QuestionSheet } from "../parts/LaterDesk.tsx";
import { later } from "../parts/later.tsx";
import { byUrgency, isOld, pressingAlert, standing } from "../state/boothLook.ts";
import { booths, formatOf, heardAtMs, isCutOff, nowMs, slowMs } from "../state/signals.ts";
import { useEvening } from "../state/useEvening.ts";
import { boothVerdict } from "../words/boothWords.ts";
import { boothPage as words } from "../words/en/booth.ts";
import { asking } from "../words/en/frame.ts";
import { invented, nameOf } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

const AnswerButtons = later(
  () => import("../answers/AnswerButtons.tsx").then((file) => file.AnswerButtons),
  () => null,
);
const AdviceReasons = later(
  () => import("../desk/desk.ts").then((file) => file.AdviceReasons),
  () => null,
);
const AdviceSheet = later(
  () => import("../desk/desk.ts").then((file) => file.AdviceSheet),
  () => null,
);
const Facts = later(
  () => import("../desk/desk.ts").then((file) => file.Facts),
  () => <section class="sheet waiting facts-sheet" />,
);

const SunSheet = later(
  () => import("../desk/desk.ts").then((file) => file.SunSheet),
  () => null,
);

/** One booth: what it needs, its evening, its temperature, its sessions, and the facts. */
export function Booth({ boothId }: { boothId: string }) {
  const booth = booths.value.find((each) => each.boothId === boothId);
  if (booth !== undefined) return <KnownBooth booth={booth} />;
  const isAsked = heardAtMs.value !== null;
  return (
    <Frame bar={<Back />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{isAsked ? words.gone : asking}</h1>
        {isAsked && <p>{words.goneMore}</p>}
      </div>
    </Frame>
  );
}

function Back() {
  return (
    <a class="back" href="/">
      <Icon name="back" />
      {words.back}
    </a>
  );
}

function KnownBooth({ booth }: { booth: BoothView }) {
  const format = formatOf(booth);
  const now = slowMs.value;
  const old = isOld(booth, isCutOff.value);
  const cutOffMs = isCutOff.value ? nowMs.value - (heardAtMs.value ?? nowMs.value) : null;
  const evening = useEvening(booth);
  const verdict = boothVerdict(booth, now, format, cutOffMs);
  return (
    <Frame
      title={booth.name}
      bar={
        <>
          <Back />
          <span>
            {booth.booking !== null && `${booth.booking.place} · `}
            <Age booth={booth} format={format} />
          </span>
        </>
      }
    >
      <div class="verdict">
        <div class="who">
          <span class="voice">{nameOf(booth.name, booth.isTrailer)}</span>
          <BoothChip booth={booth} nowMs={now} format={format} isCutOff={isCutOff.value} />
          {booth.scenario !== null && <span class="small">{`${invented.mark}: ${booth.scenario}`}</span>}
        </div>
        <h1 tabIndex={-1} aria-live="polite">
          {verdict}
        </h1>
      </div>
      <div class="booth-parts">
        <div class="lead">
          <Needs booth={booth} nowMs={now} format={format} isOld={old} said={verdict} />
          <EveningSheet booth={booth} evening={evening} nowMs={now} isOld={old} format={format} />
          <SunSheet booth={booth} />
        </div>
        <div class="side">
          <PaperActions booth={booth} format={format} />
          <Facts booth={booth} isOld={old} format={format} />
        </div>
        <div class="more">
          <BoothCharts booth={booth} evening={evening} nowMs={now} isOld={old} format={format} />
        </div>
      </div>
    </Frame>
  );
}

type NeedsProps = {
  booth: BoothView;
  nowMs: number;
  format: Format;
  isOld: boolean;
  /** The page's headline, which is not said twice. */
  said: string;
};

/**
 * What the booth needs: its alerts, the one question, which stands for its alert, and the advice, which stands
 * in the alert it belongs to.
 */
function Needs({ booth, nowMs, format, isOld, said }: NeedsProps) {
  const question = isCutOff.value ? null : (booth.media?.question ?? null);
  const alerts = (isCutOff.value ? [] : byUrgency(standing(booth.alerts))).filter(
    (alert) => question === null || alert.matter !== "countDoubtful",
  );
  const first = pressingAlert(booth);
  const onPaper = alerts.find(({ matter }) => matter === "mediaLow" || matter === "sparesShort") ?? null;
  const isOver = booth.booking !== null && nowMs >= booth.booking.closeAtMs;
  const hasAdvice = !isOld && !isOver;
  return (
    <>
      {alerts.map((alert) => (
        <AlertSheet
          key={alert.alertId}
          alert={alert}
          booth={booth}
          nowMs={nowMs}
          format={format}
          isFirst={alert.alertId === first?.alertId}
        >
          {alert === onPaper && hasAdvice && <AdviceReasons booth={booth} nowMs={nowMs} format={format} />}
          <AnswerButtons alert={alert} headline={said} format={format} />
        </AlertSheet>
      ))}
      {question !== null && <QuestionSheet booth={booth} question={question} format={format} said={said} />}
      {onPaper === null && hasAdvice && (
        <AdviceSheet booth={booth} nowMs={nowMs} format={format} said={said} />
      )}
    </>
  );
}
