import { openReplay } from "../../../dashboard/replay/replayDemand.ts";
import { readReplayLine } from "../../../dashboard/replay/replayLines.ts";
import type { Forecaster } from "./tryEvening.ts";

/** The program's forecast, asked as `replay demand` asks it: every line is written as text and read again. */
export function throughReplay(): Forecaster {
  const replay = openReplay();
  return {
    take: (line) => {
      const read = readReplayLine(JSON.stringify(line));
      if (!("line" in read))
        throw new Error(`the replay refused ${JSON.stringify(line)}: ${JSON.stringify(read)}`);
      return replay.take(read.line, () => undefined);
    },
  };
}
