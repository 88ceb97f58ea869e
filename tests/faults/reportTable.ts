import type { FaultReport } from "./runFaults.ts";

/** The report as a small table, the first few wrong items named; `isWell` when nothing is lost, doubled or miscounted. */
export function reportTable(report: FaultReport, seconds: number): { table: string; isWell: boolean } {
  const { lost, doubled, foreign, miscounts } = report;
  const rows: [string, string | number][] = [
    ["agents killed", report.agentKills],
    ["dashboards killed", report.dashboardKills],
    ["links cut", `${String(report.cuts)} times, ${String(report.cutConnections)} connections`],
    ["items", report.items],
    ["to come at the last", report.toComeAtLastFault],
    ["stored", report.stored],
    ["lost", lost.length],
    ["doubled", doubled.length],
    ["not of the scenario", foreign.length],
    ["booths counted wrong", miscounts.length],
    ["seconds", Math.round(seconds)],
  ];
  const wrong = [
    ...lost.slice(0, 5).map((item) => `lost: ${item}`),
    ...doubled.slice(0, 5).map((item) => `doubled: ${item}`),
    ...foreign.slice(0, 5).map((item) => `not of the scenario: ${item}`),
    ...miscounts.map((line) => `counted wrong: ${line}`),
  ];
  const lines = [...rows.map(([word, figure]) => `${word.padEnd(22)}${String(figure)}`), ...wrong];
  return {
    table: lines.map((line) => `${line}\n`).join(""),
    isWell: wrong.length === 0 && report.stored === report.items,
  };
}
