import { expect, test } from "vitest";
import { seededDice } from "../../seeds/dice.ts";
import { faultPlan } from "./faultPlan.ts";

test("a plan holds as many kills and cuts as asked for, agent and dashboard in turn", () => {
  const plan = faultPlan(50, 20, seededDice(1, "faults"));
  expect(plan.filter(({ what }) => what === "cut")).toHaveLength(20);
  const kills = plan.filter(({ what }) => what !== "cut").map(({ what }) => what);
  expect(kills).toEqual(Array.from({ length: 50 }, (_, i) => (i % 2 === 0 ? "agent" : "dashboard")));
});

test("the same seed makes the same plan, another seed another", () => {
  const planOf = (seed: number) => faultPlan(10, 5, seededDice(seed, "faults"));
  expect(planOf(3)).toEqual(planOf(3));
  expect(planOf(3)).not.toEqual(planOf(4));
});
