import type { Evening } from "./evening.ts";

/** The lines of `replay demand` that the bench speaks; instants are ISO. */
export type PastLine = {
  readonly kind: "past";
  readonly pattern: string;
  readonly start: string;
  readonly end: string;
  readonly guests: number | null;
  readonly sessions: number;
  readonly sheets: number;
  readonly bins15: readonly number[];
};
export type PlanLine = {
  readonly kind: "plan";
  readonly start: string;
  readonly end: string;
  readonly guests: number | null;
  readonly pattern: string | null;
  readonly sheetsLoaded: number;
  readonly sheetsPerSession: number | null;
};
export type ReplayLine =
  | PastLine
  | PlanLine
  | { readonly kind: "session"; readonly at: string; readonly sheets: number }
  | { readonly kind: "stop"; readonly from: string; readonly to: string }
  | { readonly kind: "ask"; readonly at: string };

const askEveryMs = 20 * 60_000;
/** Later than that before the close there is nothing left to decide. */
const lastAskMs = 10 * 60_000;

export const isoOf = (atMs: number): string => new Date(atMs).toISOString();

/** When the forecast of an evening is asked: from the opening on, every 20 minutes. */
export function askTimes({ startAtMs, endAtMs }: Evening): number[] {
  const asks: number[] = [];
  for (let atMs = startAtMs; atMs <= endAtMs - lastAskMs; atMs += askEveryMs) asks.push(atMs);
  return asks;
}

/**
 * What is said from just after the ask before up to and with an ask. A stop that goes on is told as far as it
 * has gone: nobody knows its end yet.
 */
export function linesUpTo(evening: Evening, afterMs: number, askAtMs: number): ReplayLine[] {
  const timed: { atMs: number; line: ReplayLine }[] = evening.sessions
    .filter(({ atMs }) => atMs > afterMs && atMs <= askAtMs)
    .map(({ atMs, sheets }) => ({ atMs, line: { kind: "session", at: isoOf(atMs), sheets } }));
  for (const { fromAtMs, toAtMs } of evening.toldStops) {
    const knownMs = Math.min(toAtMs, askAtMs);
    if (fromAtMs < askAtMs && toAtMs > afterMs)
      timed.push({ atMs: knownMs, line: { kind: "stop", from: isoOf(fromAtMs), to: isoOf(knownMs) } });
  }
  const lines = timed.sort((a, b) => a.atMs - b.atMs).map(({ line }) => line);
  return [...lines, { kind: "ask", at: isoOf(askAtMs) }];
}

/** What is said before the opening. */
export function openingLines({ past, plan }: Evening): ReplayLine[] {
  return [...past, plan];
}
