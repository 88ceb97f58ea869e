import { resolve } from "node:path";
import { findTool } from "../support/findTool.ts";
import { serveBareLine } from "./bareLine.ts";
import { boothRows } from "./boothRows.ts";
import { benchAdvice } from "./advice/benchAdvice.ts";
import { benchAlerts } from "./alerts/benchAlerts.ts";
import { benchTable, type BenchRow } from "./figures.ts";
import { benchForecast } from "./forecast/benchForecast.ts";
import { benchHeat } from "./heat/benchHeat.ts";
import { benchSeason } from "./season/benchSeason.ts";
import { readingToPageRow, throughputRows } from "./lineRows.ts";
import { benchRolls } from "./rolls/benchRolls.ts";

/** What this process itself has worked: others on the computer do not count. */
function workedMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

/** `npm run bench`: how fast the line is. Ratios travel to other computers, absolute figures do not. */
async function main([part, folder]: string[]): Promise<void> {
  if (part === "bare-line" && folder !== undefined) return serveBareLine(folder);
  if (part === "forecast")
    return void process.stdout.write(await benchForecast(process.argv.slice(3), () => performance.now()));
  if (part === "alerts") return void process.stdout.write(await benchAlerts(process.argv.slice(3)));
  if (part === "advice") return void process.stdout.write(benchAdvice(process.argv.slice(3)));
  if (part === "rolls") return void process.stdout.write(benchRolls(process.argv.slice(3)));
  if (part === "heat") return void process.stdout.write(benchHeat(process.argv.slice(3), workedMs));
  const top = resolve(import.meta.dirname, "../..");
  if (part === "season") return void process.stdout.write(await benchSeason(top, process.argv.slice(3)));
  const rows: BenchRow[] = [...(await throughputRows(top)), await readingToPageRow(top)];
  if (findTool("cupsd") === null)
    console.error("bench: no print queue to measure: apt-get install cups cups-client");
  else rows.push(...(await boothRows(top)));
  process.stdout.write(benchTable(rows));
}

await main(process.argv.slice(2));
