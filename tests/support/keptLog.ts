import type { Log } from "../../agent/log.ts";

export type LogLine = { readonly level: keyof Log; readonly fields: object; readonly sentence: string };

/** A log that keeps its lines for the test to look at. */
export function keptLog(): { log: Log; lines: LogLine[]; sentences: () => string[] } {
  const lines: LogLine[] = [];
  const at =
    (level: keyof Log) =>
    (fields: object, sentence: string): void =>
      void lines.push({ level, fields, sentence });
  const log = { debug: at("debug"), info: at("info"), warn: at("warn"), error: at("error") } as Log;
  return { log, lines, sentences: () => lines.map((line) => line.sentence) };
}
