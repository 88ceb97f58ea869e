import type { ClockReading } from "@boothward/shared-types";

/** Whether the dashboard itself is what is wrong, and since when; its booths are not to blame then. */
export type OwnTrouble = {
  readonly uplink: "ok" | "down" | "unknown";
  /** null: not since this dashboard began. */
  readonly uplinkFromAtMs: number | null;
  readonly clock: "ok" | "stepped";
  readonly clockSteppedAtMs: number | null;
};

export const noTrouble: OwnTrouble = {
  ...{ uplink: "unknown", uplinkFromAtMs: null },
  ...{ clock: "ok", clockSteppedAtMs: null },
};

/** Whether silence may be the dashboard's own doing. */
export function isOwnTrouble({ uplink, clock }: OwnTrouble): boolean {
  return uplink === "down" || clock === "stepped";
}

/** What can be seen from here at one moment. */
export type OwnProbes = {
  readonly wallMs: number;
  readonly monoMs: number;
  /** The two clocks at the look before; null at the first. */
  readonly before: ClockReading | null;
  /** Calls that this dashboard made to the outside, and whether anything answered. */
  readonly calls: readonly { readonly atMs: number; readonly didAnswer: boolean }[];
  /** When each agent that comes in over the internet was last heard; null: never. */
  readonly outsideHeardAtMs: readonly (number | null)[];
};

// All our own choices.
/** Calls that are older say nothing of now. */
const callsCountMs = 3 * 60_000;
/** Agents beat every few seconds: so long without one is silence. */
const silentAfterMs = 45_000;
/** Those whose way is cut at one place fall silent within about one beat. */
const togetherMs = 30_000;
/** A clock that is set right by small steps does not make an agent silent. */
const stepMs = 15_000;
/** After a step the silences that it made up are told apart within so long. */
const steppedForMs = 5 * 60_000;

/**
 * Takes the judgement to this moment. The uplink is down when all agents from outside (two at least) fell silent
 * together and every call since failed, until one answers; either alone makes it unknown.
 */
export function stepOwnTrouble(last: OwnTrouble, probes: OwnProbes): OwnTrouble {
  const seen = uplinkOf(probes);
  const uplink = seen === "unknown" && last.uplink === "down" ? "down" : seen;
  const uplinkFromAtMs = uplink === last.uplink ? (last.uplinkFromAtMs ?? probes.wallMs) : probes.wallMs;
  const hasStepped = probes.before !== null && hasClockStepped(probes.before, probes);
  const clockSteppedAtMs = hasStepped ? probes.wallMs : last.clockSteppedAtMs;
  const isFresh = clockSteppedAtMs !== null && Math.abs(probes.wallMs - clockSteppedAtMs) < steppedForMs;
  return { uplink, uplinkFromAtMs, clock: isFresh ? "stepped" : "ok", clockSteppedAtMs };
}

function uplinkOf({ wallMs, calls, outsideHeardAtMs }: OwnProbes): OwnTrouble["uplink"] {
  const heard = outsideHeardAtMs.flatMap((atMs) => atMs ?? []);
  if (heard.some((atMs) => wallMs - atMs < silentAfterMs)) return "ok";
  const lastHeardAtMs = Math.max(-Infinity, ...heard);
  const lately = calls.filter(({ atMs }) => Math.abs(wallMs - atMs) <= callsCountMs && atMs > lastHeardAtMs);
  if (lately.some(({ didAnswer }) => didAnswer)) return "ok";
  const fellTogether = heard.length >= 2 && Math.max(...heard) - Math.min(...heard) <= togetherMs;
  return lately.length > 0 && fellTogether ? "down" : "unknown";
}

/** Whether wall and steady clock parted between two looks: a clock that was set, or a machine that slept. */
export function hasClockStepped(before: ClockReading, { wallMs, monoMs }: ClockReading): boolean {
  return Math.abs(wallMs - before.wallMs - (monoMs - before.monoMs)) > stepMs;
}
