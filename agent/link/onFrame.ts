import type { ClockReading, DashboardFrame } from "@boothward/shared-types";
import { beatEveryMs } from "@boothward/shared-types";
import { completeSample, offsetOf, wallErrorOf } from "./clockSample.ts";
import type { LinkAction, LinkState, LinkStep, Position } from "./linkState.ts";

type FrameOf<Kind extends DashboardFrame["kind"]> = Extract<DashboardFrame, { kind: Kind }>;

/** A wall clock that is further off than this is told to the person; the dashboard corrects it in any case. */
const tellWallErrorMs = 2_000;

/** What a frame of the dashboard changes. Every frame shows that the other end lives. */
export function onFrame(before: LinkState, frame: DashboardFrame, now: ClockReading): LinkStep {
  const state = { ...before, missedBeats: 0 };
  if (frame.kind === "refused")
    return { state, actions: [{ kind: "sayRefused", reason: frame.reason, field: frame.field }] };
  if (frame.kind === "welcome") return onWelcome(state, frame, now);
  if (state.phase.word !== "linked") return { state: before, actions: [] };
  switch (frame.kind) {
    case "ack":
      return onAck(state, { bootId: frame.bootId, seq: frame.throughSeq });
    case "resend":
      return onResend(state, { bootId: frame.bootId, seq: frame.afterSeq });
    case "beat":
      return onBeat(state, frame, now);
  }
}

/** Takes over what the dashboard has, and sends the first sample before any batch ([L4], [T1]). */
function onWelcome(state: LinkState, frame: FrameOf<"welcome">, now: ClockReading): LinkStep {
  if (state.phase.word !== "greeting") return { state, actions: [] };
  const sample = frame.t1MonoMs === state.phase.t1MonoMs ? completeSample(frame, now) : null;
  const t1MonoMs = now.monoMs;
  const actions: LinkAction[] = [
    { kind: "settle", stored: frame.stored },
    { kind: "sayLinked", boothName: frame.boothName },
    { kind: "send", frame: { kind: "beat", t1MonoMs, sample } },
  ];
  const wallErrorMs = sample ? wallErrorOf(sample) : 0;
  if (sample && Math.abs(wallErrorMs) > tellWallErrorMs + offsetOf(sample).deltaMs / 2)
    actions.push({ kind: "sayClock", wallErrorMs });
  return {
    state: {
      ...state,
      phase: { word: "linked", nextBeatAtMs: now.monoMs + beatEveryMs },
      tries: 0,
      trouble: null,
      missedBeats: 1,
      beatT1MonoMs: t1MonoMs,
    },
    actions,
  };
}

function onAck(state: LinkState, position: Position): LinkStep {
  const inFlight = state.inFlight.filter(
    (batch) => batch.bootId !== position.bootId || batch.seq > position.seq,
  );
  const lastResend = state.lastResend?.bootId === position.bootId ? null : state.lastResend;
  return { state: { ...state, inFlight, lastResend }, actions: [{ kind: "drop", position }] };
}

/** Begins again from where the dashboard says ([I6]); answers to batches sent before that are the same and pass. */
function onResend(state: LinkState, position: Position): LinkStep {
  const { lastResend } = state;
  if (lastResend?.bootId === position.bootId && lastResend.seq === position.seq)
    return { state, actions: [] };
  return {
    state: { ...state, sent: null, inFlight: [], lastResend: position },
    actions: [{ kind: "rewind", position }],
  };
}

/** Completes the exchange of the last beat; an answer to an older one is too old to count. */
function onBeat(state: LinkState, frame: FrameOf<"beat">, now: ClockReading): LinkStep {
  if (frame.t1MonoMs !== state.beatT1MonoMs) return { state, actions: [] };
  return { state: { ...state, beatT1MonoMs: null, sample: completeSample(frame, now) }, actions: [] };
}
