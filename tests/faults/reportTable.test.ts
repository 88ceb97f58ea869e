import { expect, test } from "vitest";
import { reportTable } from "./reportTable.ts";
import type { FaultReport } from "./runFaults.ts";

function aReport(parts: Partial<FaultReport> = {}): FaultReport {
  return {
    ...{ agentKills: 25, dashboardKills: 25, cuts: 20, cutConnections: 31, items: 100 },
    ...{ toComeAtLastFault: 4, stored: 100, lost: [], doubled: [], foreign: [], miscounts: [] },
    ...parts,
  };
}

test("a report in order is well and shows its figures", () => {
  const { table, isWell } = reportTable(aReport(), 93.4);
  expect(isWell).toBe(true);
  expect(table).toMatch(/^lost +0$/m);
  expect(table).toMatch(/^seconds +93$/m);
  expect(table).toMatch(/^links cut +20 times, 31 connections$/m);
});

test.each([
  [{ lost: ["print 3"], stored: 99 }, "lost: print 3"],
  [{ doubled: ["queue 7"] }, "doubled: queue 7"],
  [{ foreign: ["power 9"] }, "not of the scenario: power 9"],
  [{ miscounts: ["Fault 1: off by one"] }, "counted wrong: Fault 1: off by one"],
])("%j is not well and is named", (parts, line) => {
  const { table, isWell } = reportTable(aReport(parts), 1);
  expect(isWell).toBe(false);
  expect(table).toContain(`${line}\n`);
});
