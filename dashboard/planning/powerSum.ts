import type { PowerLevel, PowerPlan, PowerSum } from "@boothward/shared-types";
import { cords } from "./cords.ts";

/** Continuous load: at most so much of a breaker. Source: NEC 210.20(A) (from memory). */
const continuousShare = 0.8;

/** Voltage drop advised on a branch, and in all. Source: NEC 210.19 and 215.2, informational notes (from memory). */
const advisedPct = { branch: 3, all: 5 };

/** What an inverter passes on of what its battery holds. Common practice, no source. */
const inverterShare = 0.85;

/** Setting up takes current too. Our own choice. */
const beforeOpeningHours = 1;

/**
 * The watts of a plan against its breaker, its cord and its battery. `openHours` null: not known how long.
 *
 * Advice only: local codes and a licensed person decide, and no figure here makes an installation safe.
 */
export function powerSum(plan: PowerPlan, openHours: number | null): PowerSum {
  const watts = plan.loads.reduce((sum, load) => sum + load.watts, 0);
  const amps = watts / plan.volts;
  return {
    ...{ watts, amps },
    breaker: plan.breakerA === null ? null : breakerOf(plan.breakerA, amps, plan.volts),
    cord: plan.cord === null ? null : cordOf(plan.cord, amps, plan.volts),
    battery: plan.batteryWh === null ? null : batteryOf(plan.batteryWh, watts, openHours),
  };
}

/** Volts lost there and back: 2 I R L. */
export function cordDropV(amps: number, ohmPerM: number, lengthM: number): number {
  return 2 * amps * ohmPerM * lengthM;
}

function breakerOf(breakerA: number, amps: number, volts: number): PowerSum["breaker"] {
  const continuousA = continuousShare * breakerA;
  return {
    level: levelOf(amps, continuousA, breakerA),
    sharePct: (100 * amps) / breakerA,
    continuousA,
    freeWatts: (continuousA - amps) * volts,
  };
}

function cordOf(
  { lengthM, size }: NonNullable<PowerPlan["cord"]>,
  amps: number,
  volts: number,
): PowerSum["cord"] {
  const { ohmPerM, carriesA } = cords[size];
  const dropV = cordDropV(amps, ohmPerM, lengthM);
  const dropPct = (100 * dropV) / volts;
  return {
    ...{ dropV, dropPct, dropLevel: levelOf(dropPct, advisedPct.branch, advisedPct.all) },
    longestM: amps > 0 ? (advisedPct.branch * volts) / 100 / (2 * amps * ohmPerM) : null,
    ...{ carriesA, isOverloaded: amps > carriesA },
  };
}

function batteryOf(batteryWh: number, watts: number, openHours: number | null): PowerSum["battery"] {
  const runsHours = watts > 0 ? (batteryWh * inverterShare) / watts : null;
  if (runsHours === null || openHours === null) return { runsHours, isEnough: null };
  return { runsHours, isEnough: runsHours >= openHours + beforeOpeningHours };
}

function levelOf(figure: number, good: number, most: number): PowerLevel {
  if (figure > most) return "over";
  return figure > good ? "near" : "fine";
}
