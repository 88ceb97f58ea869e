import { createInterface } from "node:readline";
import { openReplay } from "./replayDemand.ts";
import { replayLines } from "./replayStream.ts";

const usage = `Usage: replay demand < evening.ndjson

  demand    sheets until the end of an event: reads its lines, answers each ask with one line

Only demand is known now.
`;

/** What can be played again, each by its word on the command line. */
const subjects = new Map([
  ["demand", () => replayLines(createInterface({ input: process.stdin }), openReplay(), process)],
]);

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
