import { type ChildProcess, spawn } from "node:child_process";
import { createInterface } from "node:readline";

/** How a process ended: one of the two is null. */
export type Ending = { readonly code: number | null; readonly signal: NodeJS.Signals | null };

/** A child process of ours, with the last lines it wrote. */
export type Running = {
  readonly name: string;
  readonly pid: number;
  /** Resolves when the process is gone and its output is read to the end; never rejects. */
  readonly ended: Promise<Ending>;
  isRunning(): boolean;
  /** The last lines of both outputs, oldest first. */
  lastLines(count: number): string[];
  /** The first line of stdout that matches, also one already written; rejects if the process ends or is late. */
  seeLine(pattern: RegExp, withinMs: number): Promise<RegExpMatchArray>;
  /** Asks it to end (SIGTERM), and makes it end after `graceMs`. Resolves when it is gone. */
  stop(graceMs?: number): Promise<Ending>;
  /** Ends it at once, as a power cut would (SIGKILL). Resolves when it is gone. */
  kill(): Promise<Ending>;
};

export type ProcessOptions = {
  readonly name: string;
  readonly command: string;
  readonly args: readonly string[];
  readonly cwd: string;
  readonly env?: Readonly<Record<string, string>>;
  /** Own process group, so that a Ctrl-C in the terminal reaches only the parent. */
  readonly isDetached?: boolean;
};

/** Enough to see why a process died. */
const keptLines = 400;

const defaultGraceMs = 8_000;

/** Starts a child process; what it cannot start ends with code 127 and a line that says why. */
export function startProcess(options: ProcessOptions): Running {
  const child = spawn(options.command, options.args, {
    cwd: options.cwd,
    env: { ...process.env, ...options.env },
    stdio: ["ignore", "pipe", "pipe"],
    detached: options.isDetached ?? false,
  });
  const output = readOutput(child);
  const ended = endOf(child, output);
  let isRunning = true;
  void ended.then(() => (isRunning = false));
  const end = async (signal: NodeJS.Signals, graceMs: number): Promise<Ending> => {
    child.kill(signal);
    const harder = setTimeout(() => child.kill("SIGKILL"), graceMs);
    const ending = await ended;
    clearTimeout(harder);
    return ending;
  };
  return {
    name: options.name,
    pid: child.pid ?? 0,
    ended,
    isRunning: () => isRunning,
    lastLines: (count) => output.lines.slice(-count),
    seeLine: (pattern, withinMs) => seeLine(options.name, output, ended, pattern, withinMs),
    stop: (graceMs = defaultGraceMs) => end("SIGTERM", graceMs),
    kill: () => end("SIGKILL", defaultGraceMs),
  };
}

type Output = {
  readonly lines: string[];
  readonly fromStdout: string[];
  readonly watchers: Set<(line: string) => void>;
};

function readOutput(child: ChildProcess): Output {
  const output: Output = { lines: [], fromStdout: [], watchers: new Set() };
  const keep = (kept: string[], line: string): void => {
    kept.push(line);
    if (kept.length > keptLines) kept.shift();
  };
  if (child.stdout !== null)
    createInterface({ input: child.stdout }).on("line", (line) => {
      keep(output.lines, line);
      keep(output.fromStdout, line);
      for (const watcher of output.watchers) watcher(line);
    });
  if (child.stderr !== null)
    createInterface({ input: child.stderr }).on("line", (line) => {
      keep(output.lines, line);
    });
  return output;
}

function endOf(child: ChildProcess, output: Output): Promise<Ending> {
  return new Promise((resolve) => {
    child.once("error", (error) => {
      output.lines.push(`could not be started: ${error.message}`);
      resolve({ code: 127, signal: null });
    });
    child.once("close", (code, signal) => {
      resolve({ code, signal });
    });
  });
}

function seeLine(
  name: string,
  output: Output,
  ended: Promise<Ending>,
  pattern: RegExp,
  withinMs: number,
): Promise<RegExpMatchArray> {
  return new Promise((resolve, reject) => {
    const settle = (settled: () => void): void => {
      clearTimeout(late);
      output.watchers.delete(look);
      settled();
    };
    const fail = (why: string): void => {
      const last = output.lines.slice(-15).join("\n  ");
      settle(() => {
        reject(new Error(`${name} ${why} before a line like ${String(pattern)}; it said:\n  ${last}`));
      });
    };
    const look = (line: string): void => {
      const match = pattern.exec(line);
      if (match !== null)
        settle(() => {
          resolve(match);
        });
    };
    const late = setTimeout(() => {
      fail(`took more than ${String(withinMs)} ms`);
    }, withinMs);
    output.watchers.add(look);
    for (const line of output.fromStdout) look(line);
    void ended.then((ending) => {
      fail(`ended (${endingInWords(ending)})`);
    });
  });
}

/** "code 1" or "SIGKILL". */
export function endingInWords({ code, signal }: Ending): string {
  return signal ?? `code ${String(code)}`;
}
