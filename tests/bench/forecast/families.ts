import { between, pick, type Dice } from "../../../seeds/dice.ts";
import { inventKind, namedKinds, type KindOfEvening } from "./eveningShape.ts";
import type { Bend } from "./guestArrivals.ts";

/** What is particular about one simulated evening. Shares are of the evening's length. */
export type Recipe = {
  readonly kindName: string;
  readonly kind: KindOfEvening;
  /** What the plan says of kind and guests; earlier evenings that are known. */
  readonly says: "all" | "kind unknown" | "nothing";
  readonly earlierEvenings: number;
  /** Guests at the booth as against what a planner expects. */
  readonly level: number;
  /** How far that level differs from evening to evening, one standard deviation as a share. */
  readonly levelSpread: number;
  readonly bends: readonly Bend[];
  readonly stopShares: readonly { readonly at: number; readonly minutes: number }[];
  readonly stopsTold: boolean;
  readonly crowded: boolean;
};

/** How well a planner knows the guests of an ordinary evening, and of one that goes as planned. */
const ordinarySpread = 0.35;
const plannedSpread = 0.18;

function plain(dice: Dice): Recipe {
  const kindName = pick(
    dice,
    Object.keys(namedKinds).map((name) => [name, 1] as const),
  );
  return {
    kindName,
    kind: namedKinds[kindName] ?? inventKind(dice),
    says: "all",
    earlierEvenings: 0,
    level: 1,
    levelSpread: ordinarySpread,
    bends: [],
    stopShares: [],
    stopsTold: true,
    crowded: false,
  };
}

/** One thing that goes otherwise than planned. */
type Twist = (recipe: Recipe, dice: Dice) => Recipe;

const above: Twist = (recipe, dice) => ({
  ...recipe,
  level: between(dice, 1.6, 2.6),
  levelSpread: plannedSpread,
});
const below: Twist = (recipe, dice) => ({
  ...recipe,
  level: 1 / between(dice, 1.6, 2.6),
  levelSpread: plannedSpread,
});
const withBends = (recipe: Recipe, ...bends: Bend[]): Recipe => ({
  ...recipe,
  bends: [...recipe.bends, ...bends],
});
/** Some of those who would have come early come later instead. */
const lateStart: Twist = (recipe, dice) => {
  const until = between(dice, 0.12, 0.3);
  return withBends(
    recipe,
    { from: 0, to: until, times: 0.06 },
    { from: until, to: 1, times: between(dice, 1, 1.3) },
  );
};
const suddenRush: Twist = (recipe, dice) => {
  const from = between(dice, 0.15, 0.8);
  return withBends(recipe, {
    from,
    to: from + between(dice, 0.06, 0.13),
    times: between(dice, 2.8, 5),
  });
};
const deadHour: Twist = (recipe, dice) => {
  const from = between(dice, 0.2, 0.7);
  return withBends(recipe, { from, to: from + between(dice, 0.13, 0.25), times: 0.05 });
};
const endRush: Twist = (recipe, dice) =>
  withBends(recipe, { from: between(dice, 0.82, 0.9), to: 1, times: between(dice, 1.8, 3.2) });
const outage =
  (stopsTold: boolean): Twist =>
  (recipe, dice) => ({
    ...recipe,
    stopsTold,
    stopShares: Array.from({ length: dice() < 0.35 ? 2 : 1 }, () => ({
      at: between(dice, 0.1, 0.8),
      minutes: between(dice, 12, 50),
    })),
  });
const crowded: Twist = (recipe) => ({ ...recipe, crowded: true });

const severalAtOnce: Twist = (recipe, dice) => {
  const twists = [lateStart, suddenRush, deadHour, endRush, outage(dice() < 0.5), level(dice)];
  let twisted = recipe;
  for (let count = dice() < 0.5 ? 2 : 3; count > 0; count -= 1) {
    const [twist] = twists.splice(Math.floor(dice() * twists.length), 1);
    twisted = twist?.(twisted, dice) ?? twisted;
  }
  return twisted;
};
const level =
  (dice: Dice): Twist =>
  (recipe) => ({ ...recipe, level: dice() < 0.5 ? between(dice, 1.3, 2) : between(dice, 0.4, 0.75) });

const unknownKind =
  (earlierEvenings: boolean): Twist =>
  (recipe, dice) => ({
    ...recipe,
    kindName: "housewarming",
    kind: inventKind(dice),
    says: earlierEvenings ? "all" : "kind unknown",
    earlierEvenings: earlierEvenings ? 4 + Math.floor(dice() * 5) : 0,
  });

const twists: Readonly<Record<string, Twist>> = {
  "as planned": (recipe) => ({ ...recipe, levelSpread: plannedSpread }),
  "far above the plan": above,
  "far below the plan": below,
  "late start": lateStart,
  "sudden rush": suddenRush,
  "dead hour": deadHour,
  "line limited by the booth": crowded,
  "outages, told": outage(true),
  "outages, not told": outage(false),
  "no plan": (recipe) => ({ ...recipe, says: "nothing" }),
  "rush at the end": endRush,
  "several at once": severalAtOnce,
  "known kind, earlier evenings": (recipe, dice) => ({
    ...recipe,
    earlierEvenings: 3 + Math.floor(dice() * 5),
  }),
  "unknown kind, earlier evenings": unknownKind(true),
  "unknown kind, none earlier": unknownKind(false),
};

/** The families of simulated evenings by name, in the order of their seeds. */
export const familyNames: readonly string[] = Object.keys(twists);

/** What is particular about an evening of a family. */
export function drawRecipe(family: string, dice: Dice): Recipe {
  const twist = twists[family];
  if (twist === undefined) throw new Error(`no family of evenings is called ${family}`);
  return twist(plain(dice), dice);
}
