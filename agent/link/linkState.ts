import type { AgentFrame, ClockSample, DashboardFrame } from "@boothward/shared-types";
import { maxBatchItems } from "@boothward/shared-types";
import type { Ending, TroubleWord } from "./trouble.ts";

/** A place in the outbox: an item of a boot. */
export type Position = { readonly bootId: string; readonly seq: number };

/** Where the link stands; all instants are of the steady clock. */
export type LinkPhase =
  /** Until when it stays away; `isHeld`: a played scenario keeps it away, nothing shortens that. */
  | { readonly word: "waiting"; readonly untilMs: number; readonly isHeld: boolean }
  | { readonly word: "opening"; readonly giveUpAtMs: number }
  | { readonly word: "greeting"; readonly giveUpAtMs: number; readonly t1MonoMs: number }
  | { readonly word: "linked"; readonly nextBeatAtMs: number };

export type SentBatch = Position & { readonly sentAtMs: number };

export type LinkState = {
  readonly phase: LinkPhase;
  /** Tries since the last welcome, for the back-off. */
  readonly tries: number;
  /** What was said last of why there is no link, so that it is said once. */
  readonly trouble: TroubleWord | null;
  /** Beats that nothing was heard after. */
  readonly missedBeats: number;
  /** The first timestamp of the beat that is not answered yet. */
  readonly beatT1MonoMs: number | null;
  /** The last exchange that was completed and not yet sent. */
  readonly sample: ClockSample | null;
  /** Last item that was sent over this link; null: begin with the first unacknowledged one. */
  readonly sent: Position | null;
  readonly inFlight: readonly SentBatch[];
  /** The position last asked for again: the batches behind the refused one are answered the same way. */
  readonly lastResend: Position | null;
  /** Most items in a batch; halved when one was too large. */
  readonly batchItems: number;
};

export type LinkChange =
  | { readonly kind: "tick" }
  | { readonly kind: "opened" }
  | { readonly kind: "frame"; readonly frame: DashboardFrame }
  /** A frame that is not of the protocol; the link is closed over it. */
  | { readonly kind: "badFrame"; readonly reason: string }
  | { readonly kind: "ended"; readonly ending: Ending }
  | { readonly kind: "bootBegun" }
  | { readonly kind: "hold"; readonly holdMs: number }
  | { readonly kind: "tryNow" };

export type LinkAction =
  | { readonly kind: "open" }
  /** Greet, with what only the outbox knows filled in. */
  | { readonly kind: "greet"; readonly t1MonoMs: number }
  | { readonly kind: "send"; readonly frame: AgentFrame }
  | { readonly kind: "close"; readonly code: number; readonly reason: string }
  /** End it without a word, like a network that is gone. */
  | { readonly kind: "cut" }
  | { readonly kind: "settle"; readonly stored: readonly { bootId: string; throughSeq: number }[] }
  | { readonly kind: "drop"; readonly position: Position }
  | { readonly kind: "rewind"; readonly position: Position }
  | { readonly kind: "sayTrouble"; readonly word: TroubleWord; readonly ending: Ending }
  | { readonly kind: "sayRefused"; readonly reason: string; readonly field: string | null }
  | { readonly kind: "sayLinked"; readonly boothName: string }
  | { readonly kind: "sayClock"; readonly wallErrorMs: number };

export type LinkStep = { readonly state: LinkState; readonly actions: readonly LinkAction[] };

/** What belongs to one connection, as it is without one. */
export const unconnected = {
  missedBeats: 0,
  beatT1MonoMs: null,
  sample: null,
  sent: null,
  inFlight: [],
  lastResend: null,
} as const satisfies Partial<LinkState>;

/** A link before its first try, which is due at once. */
export const firstLinkState: LinkState = {
  ...unconnected,
  phase: { word: "waiting", untilMs: Number.NEGATIVE_INFINITY, isHeld: false },
  tries: 0,
  trouble: null,
  batchItems: maxBatchItems,
};
