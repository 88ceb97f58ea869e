import { dirname } from "node:path";
import { mkdirSync } from "node:fs";
import { type Logger, destination, pino } from "pino";
import openRolling from "pino-roll";
import type { LogConfig } from "./config.ts";

/** Where a room says what happened: fields first, then the sentence. */
export type Log = Pick<Logger, "debug" | "info" | "warn" | "error">;

/** Keys whose values never reach a log, wherever they stand. */
const secretKeys = ["token", "code", "authorization", "Authorization", "password"];

/**
 * Opens the agent's log: JSON lines to stderr, or to numbered files that roll over at `maxMb`.
 *
 * It writes in this process, without a worker thread of its own, so that it survives bundling.
 */
export async function openLog(config: LogConfig): Promise<Logger> {
  const paths = secretKeys.flatMap((key) => [key, `*.${key}`, `*.*.${key}`]);
  const settings = { level: config.level, base: null, redact: { paths, censor: "(hidden)" } };
  if (config.file === undefined) {
    const stderr = destination({ dest: 2, sync: true });
    // Whoever read it may be gone; that is no reason to stop watching a booth.
    stderr.on("error", () => undefined);
    return pino(settings, stderr);
  }
  mkdirSync(dirname(config.file), { recursive: true });
  const file = await openRolling({
    file: config.file,
    size: `${config.maxMb}m`,
    limit: { count: config.keepFiles },
  });
  return pino(settings, file);
}
