import type { ClockReading } from "@boothward/shared-types";
import { beatEveryMs, closeCodes } from "@boothward/shared-types";
import { backOffMs } from "./backOff.ts";
import { type LinkAction, type LinkChange, type LinkState, type LinkStep, unconnected } from "./linkState.ts";
import { onFrame } from "./onFrame.ts";
import { type Ending, troubleOf, waitOfTrouble } from "./trouble.ts";

/** Longest an opening or a greeting may take: a phone's hotspot that has just woken needs several seconds. */
const patienceMs = 15_000;

/** Longest a batch may stay without an answer while the link otherwise lives. */
const answerWithinMs = 3 * beatEveryMs;

/** Beats without an answer after which the link is given up ([B1]). */
const mostMissedBeats = 3;

/**
 * What the link does about a change: its next state and what is to be done, in order.
 *
 * `now` is the agent's clock, `dice` a number between 0 and 1 for this step.
 */
export function stepLink(state: LinkState, change: LinkChange, now: ClockReading, dice: number): LinkStep {
  switch (change.kind) {
    case "tick":
      return onTick(state, now, dice);
    case "opened":
      return onOpened(state, now);
    case "frame":
      return onFrame(state, change.frame, now);
    case "badFrame":
      return hangUp(state, closeCodes.badFrame, change.reason, now, dice);
    case "ended":
      return onEnded(state, change.ending, now, dice);
    case "bootBegun":
      return onBootBegun(state, now);
    case "hold":
      return onHold(state, change.holdMs, now);
    case "tryNow":
      return onTryNow(state, now);
  }
}

/** When the link next wants a tick, on the steady clock. */
export function wakeAtMs({ phase, inFlight }: LinkState): number {
  switch (phase.word) {
    case "waiting":
      return phase.untilMs;
    case "opening":
    case "greeting":
      return phase.giveUpAtMs;
    case "linked":
      return Math.min(phase.nextBeatAtMs, (inFlight[0]?.sentAtMs ?? Infinity) + answerWithinMs);
  }
}

function onTick(state: LinkState, now: ClockReading, dice: number): LinkStep {
  const { phase } = state;
  if (now.monoMs < wakeAtMs(state)) return { state, actions: [] };
  if (phase.word === "waiting") return open(state, now);
  if (phase.word !== "linked") return hangUp(state, closeCodes.silent, "no answer in time", now, dice);
  const [oldest] = state.inFlight;
  if (oldest && now.monoMs >= oldest.sentAtMs + answerWithinMs)
    return hangUp(state, closeCodes.silent, "a batch was not answered", now, dice);
  if (state.missedBeats >= mostMissedBeats)
    return hangUp(state, closeCodes.silent, "three beats were not answered", now, dice);
  return beat(state, now);
}

function open(state: LinkState, now: ClockReading): LinkStep {
  const phase = { word: "opening", giveUpAtMs: now.monoMs + patienceMs } as const;
  return { state: { ...state, phase }, actions: [{ kind: "open" }] };
}

function onOpened(state: LinkState, now: ClockReading): LinkStep {
  if (state.phase.word !== "opening") return { state, actions: [] };
  const t1MonoMs = now.monoMs;
  const phase = { word: "greeting", giveUpAtMs: now.monoMs + patienceMs, t1MonoMs } as const;
  return { state: { ...state, phase }, actions: [{ kind: "greet", t1MonoMs }] };
}

/** Sends a beat with the last complete exchange ([T1]). */
function beat(state: LinkState, now: ClockReading): LinkStep {
  const t1MonoMs = now.monoMs;
  return {
    state: {
      ...state,
      phase: { word: "linked", nextBeatAtMs: now.monoMs + beatEveryMs },
      missedBeats: state.missedBeats + 1,
      beatT1MonoMs: t1MonoMs,
      sample: null,
    },
    actions: [{ kind: "send", frame: { kind: "beat", t1MonoMs, sample: state.sample } }],
  };
}

/** The state of a link that is away until an instant; nothing of the link before it is left. */
function awayUntil(state: LinkState, untilMs: number, isHeld = false): LinkState {
  return { ...state, ...unconnected, phase: { word: "waiting", untilMs, isHeld } };
}

function hangUp(state: LinkState, code: number, reason: string, now: ClockReading, dice: number): LinkStep {
  const ended = onEnded(state, { closeCode: code, words: reason }, now, dice);
  return { state: ended.state, actions: [{ kind: "close", code, reason }, ...ended.actions] };
}

function onEnded(state: LinkState, ending: Ending, now: ClockReading, dice: number): LinkStep {
  if (state.phase.word === "waiting") return { state, actions: [] };
  const word = troubleOf(ending);
  const waitMs = waitOfTrouble[word] ?? backOffMs(state.tries, dice);
  const batchItems = word === "tooLarge" ? Math.max(1, state.batchItems >> 1) : state.batchItems;
  const away = awayUntil(state, now.monoMs + waitMs);
  const actions: LinkAction[] = word === state.trouble ? [] : [{ kind: "sayTrouble", word, ending }];
  return { state: { ...away, tries: state.tries + 1, trouble: word, batchItems }, actions };
}

/** A new boot needs a greeting of its own: the link is closed and opened again at once ([T6]). */
function onBootBegun(state: LinkState, now: ClockReading): LinkStep {
  if (state.phase.word === "waiting") return { state, actions: [] };
  return {
    state: awayUntil(state, now.monoMs),
    // RFC 6455 section 7.4.1: 1000 is a normal closure.
    actions: [{ kind: "close", code: 1000, reason: "a new boot begins" }],
  };
}

function onHold(state: LinkState, holdMs: number, now: ClockReading): LinkStep {
  const isAway = state.phase.word === "waiting";
  return {
    state: awayUntil(state, now.monoMs + holdMs, true),
    actions: isAway ? [] : [{ kind: "cut" }],
  };
}

function onTryNow(state: LinkState, now: ClockReading): LinkStep {
  if (state.phase.word !== "waiting" || state.phase.isHeld) return { state, actions: [] };
  return { state: awayUntil({ ...state, tries: 0 }, now.monoMs), actions: [] };
}
