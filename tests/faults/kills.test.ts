import { resolve } from "node:path";
import { expect, test } from "vitest";
import { runFaults } from "./runFaults.ts";

const top = resolve(import.meta.dirname, "../..");

test("[I4] [I5] [I7] five kills of agent and dashboard and two cuts lose nothing and store nothing twice", async () => {
  const options = { top, kills: 5, cuts: 2, seed: 11, agents: 1, itemsASecond: 20 };
  const report = await runFaults(options, () => undefined, Date.now);
  expect(report.agentKills).toBe(3);
  expect(report.dashboardKills).toBe(2);
  expect(report.cuts).toBe(2);
  expect(report.items).toBeGreaterThan(100);
  expect(report).toMatchObject({ stored: report.items, lost: [], doubled: [], foreign: [], miscounts: [] });
}, 240_000);
