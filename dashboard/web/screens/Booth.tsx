import type { BoothView } from "@boothward/shared-types/view";
import { Age } from "../parts/Age.tsx";
import { AlertSheet } from "../parts/AlertSheet.tsx";
import { BoothChip } from "../parts/Chip.tsx";
import { BoothCharts } from "../parts/BoothCharts.tsx";
import { EveningSheet } from "../parts/EveningSheet.tsx";
import { factsOf } from "../parts/factsOf.ts";
import { Frame } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { byUrgency, isOld } from "../state/boothLook.ts";
import { booths, formatOf, heardAtMs, isCutOff, nowMs, slowMs } from "../state/signals.ts";
import { boothVerdict } from "../words/boothWords.ts";
import { boothPage as words, facts as factWords } from "../words/en/booth.ts";
import { asking } from "../words/en/frame.ts";
import { invented, nameOf } from "../words/en/today.ts";
import type { Format } from "../words/format.ts";

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
  const alerts = cutOffMs === null ? byUrgency(booth.alerts) : [];
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
          {boothVerdict(booth, now, format, cutOffMs)}
        </h1>
      </div>
      <div class="cols">
        <div>
          {alerts.map((alert, i) => (
            <AlertSheet
              key={alert.alertId}
              alert={alert}
              booth={booth}
              nowMs={now}
              format={format}
              isFirst={i === 0}
            />
          ))}
          <EveningSheet booth={booth} nowMs={now} isOld={old} format={format} />
          <BoothCharts booth={booth} nowMs={now} format={format} />
        </div>
        <Facts booth={booth} isOld={old} format={format} />
      </div>
    </Frame>
  );
}

function Facts({ booth, isOld, format }: { booth: BoothView; isOld: boolean; format: Format }) {
  return (
    <section class="sheet">
      <h2>{factWords.title}</h2>
      <dl class={`facts ${isOld ? "grey" : ""}`}>
        {factsOf(booth, format).map((fact) => [
          <dt key={`${fact.name} name`}>{fact.name}</dt>,
          <dd key={fact.name}>
            {fact.text}
            {fact.note !== "" && <small>{fact.note}</small>}
          </dd>,
        ])}
      </dl>
    </section>
  );
}
