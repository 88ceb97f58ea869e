import { useEffect, useRef, useState } from "preact/hooks";
import { CardList } from "../parts/CardList.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { later } from "../parts/later.tsx";
import { booths, commonZone, formatOf, heardAtMs, isCutOff, nowMs, slowMs, units } from "../state/signals.ts";
import { asking, tabs } from "../words/en/frame.ts";
import { invented } from "../words/en/today.ts";
import { formatIn } from "../../alerts/format.ts";
import type { Verdict } from "../words/verdict.ts";
import { cutOffVerdict, isNothingConnected, verdictOf } from "../words/verdict.ts";

const FirstSteps = later(
  () => import("./FirstSteps.tsx").then((file) => file.FirstSteps),
  () => null,
);

/** All booths: the verdict first, then a card for each. */
export function Today() {
  const format = formatIn(commonZone.value, units.value);
  const verdict = heardAtMs.value === null ? null : presentVerdict();
  const isEmpty = verdict !== null && isNothingConnected(booths.value);
  return (
    <Frame
      title={tabs.today}
      bar={
        <>
          <Mark />
          <span>
            {format.day(slowMs.value)} · <b>{format.clock(nowMs.value)}</b>
          </span>
        </>
      }
    >
      <div class="verdict">
        <h1 tabIndex={-1}>{verdict?.headline ?? asking}</h1>
        {verdict !== null && verdict.more !== "" && <p>{verdict.more}</p>}
      </div>
      {verdict !== null && <Aloud verdict={verdict} />}
      <Invented />
      {isEmpty ? <FirstSteps /> : <CardList booths={booths.value} />}
    </Frame>
  );
}

function presentVerdict(): Verdict {
  const then = verdictOf({ booths: booths.value, nowMs: slowMs.value, formatOf });
  if (!isCutOff.value || isNothingConnected(booths.value)) return then;
  return cutOffVerdict(then, formatOf(null).minutes(nowMs.value - (heardAtMs.value ?? nowMs.value)));
}

/**
 * Says the verdict to a screen reader when the matter changes (not each time its minutes do): politely, and
 * what needs somebody now at once, with a buzz of the phone.
 */
function Aloud({ verdict }: { verdict: Verdict }) {
  const [said, setSaid] = useState({ matter: verdict.matter, sentence: "", isNow: false });
  const isFirst = useRef(true);
  useEffect(() => {
    const isFresh = said.matter !== verdict.matter || (isFirst.current && verdict.isNow);
    isFirst.current = false;
    if (!isFresh) return;
    setSaid({ matter: verdict.matter, sentence: verdict.headline, isNow: verdict.isNow });
    if (verdict.isNow) buzz();
  }, [verdict.matter]);
  return (
    <>
      <p class="unseen" aria-live="polite">
        {said.isNow ? "" : said.sentence}
      </p>
      <p class="unseen" aria-live="assertive">
        {said.isNow ? said.sentence : ""}
      </p>
    </>
  );
}

/** Whatever plays an invented evening is named above all else. */
function Invented() {
  const played = booths.value.filter((booth) => booth.scenario !== null);
  if (played.length === 0) return null;
  const names = [...new Set(played.map((booth) => booth.scenario ?? ""))];
  const sentence =
    played.length === booths.value.length
      ? invented.banner(names)
      : invented.some(played.map((booth) => booth.name));
  return (
    <p class="notice">
      <Icon name="note" />
      <span>{sentence}</span>
    </p>
  );
}

/** Once, where the device can and the person has touched the page: browsers forbid it before that. */
function buzz(): void {
  const touched: UserActivation | undefined = navigator.userActivation;
  if (touched?.hasBeenActive) navigator.vibrate?.(200);
}
