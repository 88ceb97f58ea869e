import { resolve } from "node:path";
import { parseArgs } from "node:util";
import * as z from "zod";
import { reportTable } from "./reportTable.ts";
import { runFaults } from "./runFaults.ts";

/** `npm run faults [-- --kills N --cuts N --seed N]`: ends with 1 unless every item was stored exactly once. */
async function main(args: string[]): Promise<number> {
  const option = { type: "string" } as const;
  const { values } = parseArgs({ args, options: { kills: option, cuts: option, seed: option } });
  const whole = z.coerce.number("must be a number").int("must be whole").min(0).max(10_000);
  const read = z
    .object({ kills: whole.default(50), cuts: whole.default(20), seed: whole.default(1) })
    .safeParse(values);
  if (!read.success) throw new Error(`wrong options\n${z.prettifyError(read.error)}`);
  const fromMs = performance.now();
  const top = resolve(import.meta.dirname, "../..");
  const options = { top, agents: 2, itemsASecond: 50, ...read.data };
  const say = (line: string): void => void process.stderr.write(`faults: ${line}\n`);
  say(
    `${String(read.data.kills)} kills and ${String(read.data.cuts)} cuts, seed ${String(read.data.seed)}, about three minutes`,
  );
  const report = await runFaults(options, say, Date.now);
  const { table, isWell } = reportTable(report, (performance.now() - fromMs) / 1000);
  process.stdout.write(table);
  return isWell ? 0 : 1;
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`faults: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 2;
}
