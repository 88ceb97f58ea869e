import { ReplayRefusal, type Replay } from "./replay.ts";

type Out = { readonly write: (text: string) => unknown };

/**
 * Plays the lines as they come: an answer to each ask on `stdout` at once, and what is wrong with a line, by its
 * number, on `stderr`. False when a line was malformed or out of place.
 */
export async function replayLines<Line, Answer>(
  lines: AsyncIterable<string>,
  replay: Replay<Line, Answer>,
  { stdout, stderr }: { readonly stdout: Out; readonly stderr: Out },
): Promise<boolean> {
  let isGood = true;
  let number = 0;
  const say = (text: string) => stderr.write(`replay: line ${number}: ${text}\n`);
  for await (const text of lines) {
    number += 1;
    if (text.trim() === "") continue;
    const read = replay.read(text);
    if ("unknownKind" in read) say(`kind "${read.unknownKind}" is not known; the line is left out`);
    else if ("fault" in read) {
      isGood = false;
      say(read.fault);
      if (read.opens) replay.close();
    } else {
      const refusal = takeLine(() => replay.take(read.line, say), stdout);
      if (refusal !== null) {
        isGood = false;
        say(refusal);
      }
    }
  }
  return isGood;
}

function takeLine(take: () => unknown, stdout: Out): string | null {
  try {
    const answer = take();
    if (answer !== null) stdout.write(`${JSON.stringify(answer)}\n`);
    return null;
  } catch (error) {
    if (error instanceof ReplayRefusal) return error.message;
    throw error;
  }
}
