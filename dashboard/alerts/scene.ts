import type { BoothView, Outlook } from "@boothward/shared-types";
import { isOpenAt, type BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import type { BoothState } from "../booth/boothState.ts";
import type { Trust } from "./trust.ts";

/** What alerts are judged by: a booth at one moment. */
export type Scene = {
  readonly state: BoothState;
  readonly outlook: Outlook;
  /** What the page shows of paper, printer and counts: an alert and the page beside it say the same. */
  readonly shown: Pick<BoothView, "media" | "printer" | "counts" | "clockOffMs">;
  readonly booking: BookedTime | null;
  readonly settings: BoothSettings;
  /** True time of the agent's last frame; null: never heard. */
  readonly heardAtMs: number | null;
  /** Since when this dashboard has been there to be heard by. */
  readonly listeningFromAtMs: number;
  readonly atMs: number;
  readonly reach: Reach;
  /** When the booth computer's clock last claimed a time that had not come; null: never. */
  readonly clockDoubtfulAtMs: number | null;
  /** How far alerts of what is only foreseen are trusted. */
  readonly trust: Trust;
};

/** Whether an owner, and an attendant of this booth, has a living way to be told. */
export type Reach = { readonly hasOwner: boolean; readonly hasAttendant: boolean };

/** An agent beats every 10 s: after so long a booth is silent. */
export const silentAfterMs = 60_000;

/** Setting up: what goes wrong from here on can still be put right before doors. */
const nearMs = 2 * 3_600_000;

/** Whether guests are expected now, soon, or not. */
export function phaseOf({ booking, atMs }: Pick<Scene, "booking" | "atMs">): "open" | "near" | "away" {
  if (booking === null) return "away";
  if (isOpenAt(booking, atMs)) return "open";
  return booking.openAtMs - nearMs <= atMs && atMs < booking.openAtMs ? "near" : "away";
}

/**
 * Whether the booth is heard. "waiting": the dashboard was away itself and has not listened long enough to
 * call the booth silent; what it knows is old all the same.
 */
export function hearingOf(
  scene: Pick<Scene, "heardAtMs" | "listeningFromAtMs" | "atMs">,
): "never" | "heard" | "waiting" | "silent" {
  const { heardAtMs, listeningFromAtMs, atMs } = scene;
  if (heardAtMs === null) return "never";
  if (atMs - heardAtMs < silentAfterMs) return "heard";
  return atMs - listeningFromAtMs < silentAfterMs ? "waiting" : "silent";
}

/** Spares aboard; with nothing known of the paper those of the plan, null without a booking. */
export function sparesLeft({ shown, booking }: Pick<Scene, "shown" | "booking">): number | null {
  return shown.media?.spareRolls ?? booking?.spareRolls ?? null;
}
