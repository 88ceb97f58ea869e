import type { BoothView } from "@boothward/shared-types/view";
import { useEffect, useRef, useState } from "preact/hooks";
import { AnswerButtons } from "../answers/AnswerButtons.tsx";
import { queueOf } from "../answers/queueOf.ts";
import { buzz, ring } from "../attend/bell.ts";
import { BoothSwitch } from "../attend/BoothSwitch.tsx";
import { CalmCard } from "../attend/CalmCard.tsx";
import { Figures } from "../attend/Figures.tsx";
import { followDone, nothingDone } from "../attend/followDone.ts";
import { callingIds, takeUnrung } from "../attend/newlyNow.ts";
import { SoundButton } from "../attend/SoundButton.tsx";
import { TaskCard } from "../attend/TaskCard.tsx";
import { taskOf } from "../attend/taskOf.ts";
import { Age } from "../parts/Age.tsx";
import { Frame } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { PaperActions, QuestionSheet } from "../parts/LaterDesk.tsx";
import { later } from "../parts/later.tsx";
import { inOrder, isOld } from "../state/boothLook.ts";
import { usePage } from "../state/pageContext.ts";
import { booths, formatOf, heardAtMs, isCutOff, me, nowMs, slowMs } from "../state/signals.ts";
import { alertText } from "../words/alertText.ts";
import { closeClock } from "../words/boothWords.ts";
import { attend as words } from "../words/en/attend.ts";
import { asking } from "../words/en/frame.ts";
import { invented } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import "../styles/attend.css";

const HowReached = later(
  () => import("../reach/HowReached.tsx").then((file) => file.HowReached),
  () => <section class="sheet waiting" />,
);

/** The attendant's page: the one thing to do at a booth. `boothId` null: those in this person's care, one shown. */
export function Attend({ boothId }: { boothId: string | null }) {
  const [chosen, choose] = useState<string | null>(null);
  const all = booths.value;
  const own = boothId === null ? all : all.filter((each) => each.boothId === boothId);
  const shown = own.find((each) => each.boothId === chosen) ?? inOrder(own)[0];
  useCalls(own);
  if (shown === undefined) return <Nobody isAsked={heardAtMs.value !== null} />;
  return (
    <Frame
      title={words.title(shown.name)}
      isBare
      isLinkTold
      bar={<Bar booth={shown} isOwners={boothId !== null} />}
    >
      {own.length > 1 && (
        <BoothSwitch booths={own} shownId={shown.boothId} isCutOff={isCutOff.value} show={choose} />
      )}
      <OneBooth key={shown.boothId} booth={shown} />
    </Frame>
  );
}

function Nobody({ isAsked }: { isAsked: boolean }) {
  return (
    <Frame bar={null} isBare isLinkTold>
      <div class="verdict">
        <h1 tabIndex={-1}>{isAsked ? words.nobody : asking}</h1>
        {isAsked && <p>{words.nobodyMore}</p>}
      </div>
    </Frame>
  );
}

function Bar({ booth, isOwners }: { booth: BoothView; isOwners: boolean }) {
  const format = formatOf(booth);
  const { booking } = booth;
  return (
    <>
      {isOwners ? (
        <a class="back" href={`/booths/${encodeURIComponent(booth.boothId)}`}>
          <Icon name="back" />
          {words.back(booth.name)}
        </a>
      ) : (
        <span class="voice name">{booth.name}</span>
      )}
      <span>
        {booking !== null && `${words.until(closeClock(booking.closeAtMs, format))} · `}
        <Age booth={booth} format={format} />
      </span>
    </>
  );
}

function OneBooth({ booth }: { booth: BoothView }) {
  const format = formatOf(booth);
  const now = nowMs.value;
  const old = isOld(booth, isCutOff.value);
  const thanks = useThanks(booth, old);
  const task = taskOf(booth, now);
  const asOfMs = isCutOff.value ? heardAtMs.value : old ? booth.heardAtMs : null;
  const isAboutSilence = task?.matter === "agentSilent";
  const question = isCutOff.value ? null : (booth.media?.question ?? null);
  const isAsked = question !== null && (task === null || task.matter === "countDoubtful");
  return (
    <>
      <div class="attend">
        {task === null || (isAboutSilence && !isCutOff.value) ? (
          <CalmCard
            booth={booth}
            nowMs={slowMs.value}
            format={format}
            thanks={thanks}
            cutOffMs={isCutOff.value ? now - (heardAtMs.value ?? now) : null}
          />
        ) : (
          !isAsked && <TaskCard booth={booth} alert={task} nowMs={now} format={format} asOfMs={asOfMs} />
        )}
        {isAsked && <QuestionSheet booth={booth} question={question} format={format} said="" />}
        <Others booth={booth} shownId={task?.alertId ?? null} format={format} />
        {task !== null && !isAsked && (
          <AnswerButtons
            alert={task}
            headline={alertText(task, booth, now, format).doNow}
            format={format}
            isForThumb
          />
        )}
        <Figures booth={booth} nowMs={now} isOld={old} format={format} />
      </div>
      <Below booth={booth} format={format} />
    </>
  );
}

/** What else presses, one line each: the card speaks of one thing only. */
function Others({ booth, shownId, format }: { booth: BoothView; shownId: string | null; format: Format }) {
  const others = booth.alerts.filter(
    ({ alertId, severity, state }) =>
      alertId !== shownId && severity !== "note" && (state === "unacknowledged" || state === "acknowledged"),
  );
  if (others.length === 0) return null;
  return (
    <ul class="also" aria-label={words.also}>
      {others.map((alert) => (
        <li key={alert.alertId}>
          <Icon name={alert.severity === "actNow" ? "act" : "plan"} />
          <span>{alertText(alert, booth, slowMs.value, format).headline}</span>
        </li>
      ))}
    </ul>
  );
}

/** What is for quiet minutes: paper by hand, sound, how the phone is reached. */
function Below({ booth, format }: { booth: BoothView; format: Format }) {
  const [isPaper, setPaper] = useState(false);
  return (
    <div class="attend-more">
      <button type="button" class="btn big" aria-expanded={isPaper} onClick={() => setPaper(!isPaper)}>
        {words.paper}
      </button>
      {isPaper && <PaperActions booth={booth} format={format} />}
      <section class="sheet">
        <h2>{words.sound}</h2>
        <SoundButton />
      </section>
      <HowReached />
      <a class="btn big" href={`/booths/${encodeURIComponent(booth.boothId)}/checks`}>
        {words.checks}
      </a>
      <div class="row">
        <a class="btn" href={`/booths/${encodeURIComponent(booth.boothId)}`}>
          {words.more}
        </a>
        <a class="btn" href="/alerts">
          {words.alerts}
        </a>
      </div>
      {booth.scenario !== null && <p class="small">{`${invented.mark}: ${booth.scenario}`}</p>}
      {me.value.name !== "" && <p class="small">{me.value.name}</p>}
    </div>
  );
}

/** Rings and buzzes once for each alert that becomes "now" while this page is open. */
function useCalls(own: readonly BoothView[]): void {
  const calling = isCutOff.value ? "" : callingIds(own, nowMs.value).join(" ");
  useEffect(() => {
    if (calling === "" || takeUnrung(calling.split(" "), window.localStorage).length === 0) return;
    ring();
    buzz();
  }, [calling]);
}

/** Thanks once what was called done is seen to be over. */
function useThanks(booth: BoothView, isBoothOld: boolean) {
  const queue = queueOf(usePage());
  const memory = useRef(nothingDone);
  const said = queue.waiting.value.filter(({ answer }) => answer === "done").map(({ alertId }) => alertId);
  if (!isBoothOld) memory.current = followDone(memory.current, booth, new Set(said), nowMs.value);
  return memory.current.thanks;
}
