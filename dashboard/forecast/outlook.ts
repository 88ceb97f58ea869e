import type { FanPoint, Outlook } from "@boothward/shared-types";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import type { BoothState } from "../booth/boothState.ts";
import { mediaNow, type MediaNow } from "../booth/mediaNow.ts";
import { demandRate, type DemandRate } from "./demandRate.ts";
import { demandIn, perHourOf, runOutChance } from "./gammaPoisson.ts";
import { nbQuantiles, type NegativeBinomial } from "./negativeBinomial.ts";

/** The parts of a booth's state that an outlook is made of: while they are the same, so is what lies ahead. */
export const outlookParts = ["bins", "media", "printing"] as const;
export type OutlookState = Pick<BoothState, (typeof outlookParts)[number]>;

const hourMs = 3_600_000;
const fanStepMs = 5 * 60_000;

/** An evening's rate wanders from what it was lately by about this share of itself. Our own choice. */
const drift = 0.35;

const shares = [0.1, 0.5, 0.9] as const;

/**
 * All forecasts of a booth at one moment: how many sheets are left until the close, when the roll is empty,
 * and the chance that it lasts. Depends on its arguments alone, so the same evening gives the same answer.
 *
 * `media` is null without a booking, with nothing known of the roll, and before anything tells how fast it
 * goes.
 */
export function outlookOf(
  state: OutlookState,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
): Outlook {
  const media = booking === null ? null : mediaNow(state, settings, booking);
  const rate = booking === null ? null : demandRate(state, booking, atMs);
  if (booking === null || media === null || rate === null) return { atMs, media: null };
  const steps = fanSteps(booking, rate, atMs);
  const chancesOf = (sheets: number) => steps.map((step) => runOutChance(step.demand, sheets));
  const chances = chancesOf(media.sheetsLeft);
  const lowChances = media.lowSheets === media.sheetsLeft ? chances : chancesOf(media.lowSheets);
  const highChances = media.highSheets === media.sheetsLeft ? chances : chancesOf(media.highSheets);
  const fan = steps.map((step) => fanPoint(step, media));
  const last = fan.at(-1) ?? { p10: media.lowSheets, p50: media.sheetsLeft, p90: media.highSheets };
  return {
    atMs,
    media: {
      sheetsPerHour: perHourOf(rate.belief),
      fan,
      emptyAtMs: {
        p10: firstReached(steps, lowChances, shares[0]),
        p50: firstReached(steps, chances, shares[1]),
        p90: firstReached(steps, highChances, shares[2]),
      },
      leftAtClose: { p10: last.p10, p50: last.p50, p90: last.p90 },
      lastsChance: 1 - Math.max(0, ...chances),
      ...{ basis: "planned", change: null, rationing: null, waits: null },
      rolls: { needed: 0, spares: null, lastsChance: null },
    },
  };
}

type Step = { readonly atMs: number; readonly demand: NegativeBinomial };

/** From now to the close in steps of five minutes, the close itself last; after the close none. */
function fanSteps(booking: BookedTime, { belief, clumping }: DemandRate, atMs: number): readonly Step[] {
  const lengthMs = booking.closeAtMs - atMs;
  if (lengthMs <= 0) return [];
  const count = Math.ceil(lengthMs / fanStepMs);
  return Array.from({ length: count + 1 }, (_, step) => {
    const thenMs = Math.min(atMs + step * fanStepMs, booking.closeAtMs);
    const hours = Math.max(0, thenMs - Math.max(atMs, booking.openAtMs)) / hourMs;
    return { atMs: thenMs, demand: demandIn(belief, hours, { clumping, drift }) };
  });
}

function fanPoint({ atMs, demand }: Step, media: MediaNow): FanPoint {
  const [low = 0, middle = 0, high = 0] = nbQuantiles(demand, shares);
  return { atMs, p10: media.lowSheets - high, p50: media.sheetsLeft - middle, p90: media.highSheets - low };
}

/** When the chance of an empty roll first reaches this share, between the steps by a straight line. */
function firstReached(steps: readonly Step[], chances: readonly number[], share: number): number | null {
  const at = chances.findIndex((chance) => chance >= share);
  const then = steps[at];
  if (then === undefined) return null;
  const before = steps[at - 1];
  const from = chances[at - 1] ?? 0;
  const to = chances[at] ?? 1;
  if (before === undefined || to <= from) return then.atMs;
  return before.atMs + ((then.atMs - before.atMs) * (share - from)) / (to - from);
}
