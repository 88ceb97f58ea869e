import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { notSeenAfterMs } from "../answers/answering.ts";
import { byUrgency, standing } from "../state/boothLook.ts";

/**
 * The one alert that an attendant is asked to see to: what needs doing before what is put off, and what is said
 * to be done waits behind both until it is seen or too long unseen. null: nothing is to be done.
 */
export function taskOf(booth: BoothView, nowMs: number): AlertView | null {
  const pressing = byUrgency(standing(booth.alerts)).filter(({ severity }) => severity !== "note");
  const isAsleep = ({ laterUntilAtMs, doneAtMs }: AlertView) =>
    (laterUntilAtMs !== null && laterUntilAtMs > nowMs) ||
    (doneAtMs !== null && nowMs - doneAtMs < notSeenAfterMs);
  return pressing.find((alert) => !isAsleep(alert)) ?? pressing[0] ?? null;
}

/** The large figure of a task: minutes, and seconds in the last two minutes. */
export type Countdown = { n: number; unit: "min" | "s"; is: "left" | "over" | "stopped" };

/** From here on seconds are told. */
const secondsUnderMs = 2 * 60_000;

/** How long is left to act, since when the latest moment is past, or how long the printer has stood; null: neither. */
export function countdownOf(alert: AlertView, nowMs: number): Countdown | null {
  if (alert.byAtMs !== null) {
    const leftMs = alert.byAtMs - nowMs;
    return leftMs > 0 ? inUnits(leftMs, "left") : inUnits(-leftMs, "over");
  }
  return alert.matter === "printerStopped" ? inUnits(Math.max(0, nowMs - alert.sinceAtMs), "stopped") : null;
}

function inUnits(lengthMs: number, is: Countdown["is"]): Countdown {
  return lengthMs < secondsUnderMs && is === "left"
    ? { n: Math.ceil(lengthMs / 1000), unit: "s", is }
    : { n: Math.floor(lengthMs / 60_000), unit: "min", is };
}
