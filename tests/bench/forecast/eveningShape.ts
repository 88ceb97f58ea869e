import { between, seededDice, type Dice } from "../../../seeds/dice.ts";
import { drawFactor } from "./draws.ts";

/** Shares of an evening's guests by equal slots from opening to close; they add up to 1. */
export type Shape = readonly number[];

const slots = 96;

/** A rise to `at` over `rise`, then an easing over `fall`, all as shares of the evening. */
type Surge = {
  readonly at: number;
  readonly jitter: number;
  readonly rise: number;
  readonly fall: number;
  readonly high: number;
};

/** How the evenings of one kind go: a level that is always there, and surges above it. */
export type KindOfEvening = { readonly floor: number; readonly surges: readonly Surge[] };

const surge = (at: number, jitter: number, rise: number, fall: number, high: number): Surge => ({
  at,
  jitter,
  rise,
  fall,
  high,
});

/** The kinds a plan may name, drawn from what is said of them: common practice of the trade, no source. */
export const namedKinds: Readonly<Record<string, KindOfEvening>> = {
  // Middling at the drinks, dead through dinner, strongest soon after the dancing starts, easing to the close.
  wedding: { floor: 0.07, surges: [surge(0.12, 0.05, 0.1, 0.1, 0.5), surge(0.63, 0.06, 0.06, 0.25, 1)] },
  // Slow first minutes, the peak in the first third, then falling steadily.
  corporate: { floor: 0.06, surges: [surge(0.24, 0.06, 0.09, 0.42, 1)] },
  // Builds through the first half, peaks past the middle, tails off.
  party: { floor: 0.08, surges: [surge(0.6, 0.07, 0.33, 0.2, 1)] },
  // Nearly flat, with the day's crowd.
  public: { floor: 1, surges: [surge(0.5, 0.2, 0.4, 0.4, 0.35)] },
  // A peak at arrival, quiet through dinner and speeches, a second peak after.
  gala: { floor: 0.09, surges: [surge(0.07, 0.03, 0.05, 0.11, 1), surge(0.77, 0.06, 0.07, 0.11, 0.85)] },
};

/** A kind that nobody has a word for: one to three surges anywhere. */
export function inventKind(dice: Dice): KindOfEvening {
  const surges = Array.from({ length: 1 + Math.floor(dice() * 3) }, () =>
    surge(
      between(dice, 0.05, 0.95),
      0.04,
      between(dice, 0.04, 0.3),
      between(dice, 0.05, 0.4),
      between(dice, 0.4, 1),
    ),
  );
  return { floor: between(dice, 0.05, 0.5), surges };
}

/** How one evening of the kind goes: its surges come earlier or later, higher or lower. */
export function drawShape(kind: KindOfEvening, dice: Dice): Shape {
  const floor = kind.floor * drawFactor(dice, 0.2);
  const surges = kind.surges.map((one) => ({
    ...one,
    at: one.at + between(dice, -one.jitter, one.jitter),
    fall: one.fall * drawFactor(dice, 0.2),
    high: one.high * drawFactor(dice, 0.25),
  }));
  return normalised(
    Array.from({ length: slots }, (_, slot) => {
      const x = (slot + 0.5) / slots;
      return surges.reduce((sum, one) => sum + one.high * heightAt(one, x), floor);
    }),
  );
}

/** Rises as a logistic-like hat and eases as an exponential: no bell curve. */
function heightAt({ at, rise, fall }: Surge, x: number): number {
  return x < at ? 1 / Math.cosh((2 * (at - x)) / rise) : Math.exp(-(x - at) / fall);
}

/** The mean of many evenings of the kind: what a planner who knows the kind well would expect. */
export function usualShape(kind: KindOfEvening): Shape {
  const dice = seededDice(1, "usual shape");
  return meanShape(Array.from({ length: 200 }, () => drawShape(kind, dice)));
}

/** The mean of shapes or counts with the same number of slots, made to add up to 1; flat for none. */
export function meanShape(shapes: readonly (readonly number[])[]): Shape {
  const length = shapes[0]?.length ?? slots;
  return normalised(
    Array.from({ length }, (_, slot) => shapes.reduce((sum, shape) => sum + (shape[slot] ?? 0), 0)),
  );
}

function normalised(heights: readonly number[]): Shape {
  const sum = heights.reduce((total, height) => total + height, 0);
  return heights.map((height) => (sum > 0 ? height / sum : 1 / heights.length));
}

/** The share of a shape that lies before the point `x` of the evening, 0 at the opening, 1 at the close. */
export function shareBefore(shape: Shape, x: number): number {
  const at = Math.min(Math.max(x, 0), 1) * shape.length;
  const whole = Math.floor(at);
  let share = (at - whole) * (shape[whole] ?? 0);
  for (let slot = 0; slot < whole; slot += 1) share += shape[slot] ?? 0;
  return share;
}
