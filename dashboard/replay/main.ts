import { createInterface } from "node:readline";
import { openReplay } from "./replayDemand.ts";
import { openHeatReplay } from "./replayHeat.ts";
import { replayLines } from "./replayStream.ts";

const usage = `Usage: replay demand < evening.ndjson
       replay heat < afternoon.ndjson

  demand    sheets until the end of an event: reads its lines, answers each ask with one line
  heat      the next hour's temperature in a booth: the same, from its site and its readings
`;

/** What can be played again, each by its word on the command line. */
const subjects = new Map([
  ["demand", () => replayLines(stdinLines(), openReplay(), process)],
  ["heat", () => replayLines(stdinLines(), openHeatReplay(), process)],
]);

function stdinLines(): AsyncIterable<string> {
  return createInterface({ input: process.stdin });
}

async function main([word, ...others]: string[]): Promise<void> {
  const play = subjects.get(word ?? "");
  if (play === undefined || others.length > 0) {
    const given = [word, ...others].filter((part) => part !== undefined).join(" ");
    process.stderr.write(given === "" ? usage : `replay: there is no "${given}".\n${usage}`);
    process.exitCode = 1;
    return;
  }
  if (!(await play())) process.exitCode = 1;
}

await main(process.argv.slice(2));
