import type { BoothView } from "@boothward/shared-types/view";
import { inOrder, needsSomebodyNow, paperOutlook, pressingAlert, toneOf } from "../state/boothLook.ts";
import { alertText, saysWhatToDo } from "./alertText.ts";
import { presentSentence } from "./boothSentence.ts";
import { nameOf, verdict as words } from "./en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** The one sentence of Today, what stands below it, and what makes it worth saying aloud again. */
export type Verdict = {
  headline: string;
  more: string;
  isNow: boolean;
  /** Changes when the matter changes, not when its minutes do. */
  matter: string;
};

export type VerdictInput = {
  booths: readonly BoothView[];
  nowMs: number;
  formatOf: (booth: BoothView) => Format;
};

/** True when no booth has ever been heard: Today then shows how to pair the first one. */
export function isNothingConnected(booths: readonly BoothView[]): boolean {
  return booths.every((booth) => booth.heardAtMs === null);
}

/**
 * The verdict over all booths. One booth that needs somebody now outranks all; then what is due soon, the
 * silent, the unknown, those to keep an eye on; only when none is left is it said that all will make it.
 */
export function verdictOf(input: VerdictInput): Verdict {
  if (isNothingConnected(input.booths)) return say(words.nothing, words.nothingMore, "nothing");
  return (
    nowVerdict(input) ?? soonVerdict(input) ?? silentVerdict(input) ?? doubtVerdict(input) ?? well(input)
  );
}

/** The verdict while the dashboard is out of reach: what was true then is not said as if it were true now. */
export function cutOffVerdict(then: Verdict, length: string): Verdict {
  return { ...say(words.cutOff(length), words.before(then.headline), "cutOff"), isNow: false };
}

const say = (headline: string, more: string, matter: string): Verdict => ({
  headline,
  more,
  isNow: false,
  matter,
});

const joined = (...sentences: (string | null)[]): string =>
  sentences.filter((each) => each !== null).join(" ");

const named = (booth: BoothView): string => nameOf(booth.name, booth.isTrailer);

const plainNames = (booths: readonly BoothView[]): string[] => booths.map((booth) => booth.name);

/** The headline of one booth, and what to do where the headline does not say it. */
function headlineOf(booth: BoothView, input: VerdictInput): { headline: string; doNow: string | null } {
  const alert = pressingAlert(booth);
  if (alert === null) {
    const sentence = booth.health === "stopped" ? words.stopped : words.handNeeded;
    return { headline: sentence(named(booth)), doNow: null };
  }
  const text = alertText(alert, booth, input.nowMs, input.formatOf(booth));
  return { headline: text.headline, doNow: saysWhatToDo(text) ? null : text.doNow };
}

/** What can be said of those that the headline does not speak of. */
function aboutOthers(others: readonly BoothView[]): string | null {
  if (others.length === 0 || others.some((booth) => toneOf(booth, false) !== "fine")) return null;
  return others.every((booth) => paperOutlook(booth) === "lasts")
    ? words.othersMakeIt(others.length)
    : words.othersQuiet(others.length);
}

function nowVerdict(input: VerdictInput): Verdict | null {
  const concerned = inOrder(input.booths).filter(needsSomebodyNow);
  const [first] = concerned;
  if (first === undefined) return null;
  const { headline, doNow } = headlineOf(first, input);
  const matter = `now ${concerned.map((booth) => `${booth.boothId} ${pressingAlert(booth)?.alertId}`).join()}`;
  if (concerned.length > 1)
    return { headline: words.severalNow(concerned.length), more: headline, isNow: true, matter };
  const others = input.booths.filter((booth) => booth !== first);
  const soon = others.filter((booth) => toneOf(booth, false) === "plan").length;
  const rest = soon > 0 ? words.severalSoon(soon) : aboutOthers(others);
  return { headline, more: joined(doNow, rest), isNow: true, matter };
}

function soonVerdict(input: VerdictInput): Verdict | null {
  const concerned = input.booths
    .filter((booth) => pressingAlert(booth) !== null || booth.health === "needsAHand")
    .sort((a, b) => (pressingAlert(a)?.byAtMs ?? Infinity) - (pressingAlert(b)?.byAtMs ?? Infinity));
  const [first] = concerned;
  if (first === undefined) return null;
  const { headline, doNow } = headlineOf(first, input);
  const rest =
    concerned.length > 1
      ? words.severalSoon(concerned.length - 1)
      : aboutOthers(input.booths.filter((booth) => booth !== first));
  const matter = `soon ${concerned.map((booth) => pressingAlert(booth)?.alertId ?? booth.boothId).join()}`;
  return say(headline, joined(doNow, rest), matter);
}

function silentVerdict(input: VerdictInput): Verdict | null {
  const silent = input.booths.filter((booth) => booth.health === "silent" && booth.heardAtMs !== null);
  const [first] = silent;
  if (first === undefined) return null;
  const length = input.formatOf(first).minutes(input.nowMs - (first.heardAtMs ?? input.nowMs));
  const sentence = words.silent(named(first), length);
  const matter = `silent ${plainNames(silent).join()}`;
  if (silent.length > 1) return say(words.severalSilent(silent.length), sentence, matter);
  return say(sentence, aboutOthers(input.booths.filter((booth) => booth !== first)) ?? "", matter);
}

function doubtVerdict(input: VerdictInput): Verdict | null {
  const unheard = input.booths.filter((booth) => booth.heardAtMs === null);
  const unknown = input.booths.filter((booth) => booth.health === "unknown" && booth.heardAtMs !== null);
  const watched = input.booths.filter((booth) => toneOf(booth, false) === "watch");
  const [lost] = unknown;
  if (lost !== undefined) {
    const headline = words.unknown(plainNames(unknown));
    return say(headline, joined(sentenceOf(lost, input), aboutRest(unknown, input)), `doubt ${headline}`);
  }
  if (watched.length > 0) return watchVerdict(watched, input);
  if (unheard.length === 0) return null;
  const headline = words.neverHeard(plainNames(unheard));
  return say(headline, aboutRest(unheard, input) ?? "", `doubt ${headline}`);
}

/** Something to do that is no alert yet is said at once; several are counted and the first is named. */
function watchVerdict(watched: readonly BoothView[], input: VerdictInput): Verdict | null {
  const [first] = watched;
  if (first === undefined) return null;
  const matter = `watch ${plainNames(watched).join()}`;
  if (watched.length > 1)
    return say(
      words.severalWatched(watched.length),
      words.named(first.name, sentenceOf(first, input)),
      matter,
    );
  const { doNow, why } = presentSentence(first, input.nowMs, input.formatOf(first));
  const headline = doNow === "" ? words.watched(named(first)) : words.named(named(first), lowerFirst(doNow));
  return say(headline, joined(why, aboutRest(watched, input)), matter);
}

function aboutRest(concerned: readonly BoothView[], input: VerdictInput): string | null {
  return aboutOthers(input.booths.filter((booth) => !concerned.includes(booth)));
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

function sentenceOf(booth: BoothView, input: VerdictInput): string {
  const { doNow, why } = presentSentence(booth, input.nowMs, input.formatOf(booth));
  return joined(doNow === "" ? null : doNow, why);
}

function well(input: VerdictInput): Verdict {
  const next = nextOpening(input);
  const hourless = input.booths.filter((booth) => booth.booking === null);
  const unsure = input.booths.filter((booth) => booth.booking !== null && paperOutlook(booth) !== "lasts");
  const [only] = input.booths;
  if (hourless.length + unsure.length === 0 && only !== undefined)
    return say(words.allMakeIt(named(only), input.booths.length), next ?? "", "well");
  const doubts = joined(
    unsure.length === 0 ? null : words.noPromise(plainNames(unsure)),
    hourless.length === 0 ? null : words.noHours(plainNames(hourless)),
    next,
  );
  return say(words.nothingNeeded, doubts, `quiet ${plainNames([...hourless, ...unsure]).join()}`);
}

function nextOpening(input: VerdictInput): string | null {
  const [next] = input.booths
    .flatMap((booth) =>
      booth.booking !== null && booth.booking.openAtMs > input.nowMs
        ? [{ booth, openAtMs: booth.booking.openAtMs }]
        : [],
    )
    .sort((a, b) => a.openAtMs - b.openAtMs);
  return next === undefined
    ? null
    : words.next(next.booth.name, input.formatOf(next.booth).clock(next.openAtMs));
}
