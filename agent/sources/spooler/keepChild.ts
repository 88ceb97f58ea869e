import type { Clock, FaultWord } from "@boothward/shared-types";
import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { splitLines } from "./splitLines.ts";

/** A program to run beside the agent. */
export type ChildCommand = {
  readonly file: string;
  readonly args: readonly string[];
  /** Added to the agent's own environment. */
  readonly env: Readonly<Record<string, string>>;
};

export type ChildOptions = {
  /** A child that has said nothing worth hearing for this long is ended; three times as long for its first word. */
  readonly silentMs: number;
  readonly restartMs: number;
  readonly clock: Clock;
  /** Takes a line; true if it was worth hearing. */
  readonly onLine: (line: string) => boolean;
  readonly onTrouble: (trouble: Trouble) => void;
};

export type Trouble = { readonly fault: FaultWord; readonly detail: string };

export type KeptChild = {
  /** Resolves when the child is gone. */
  close(): Promise<void>;
};

/** A program that starts in vain costs a second of processor each time. */
const mostRestartMs = 60_000;
/** Whoever has lived this long starts with a clean slate. */
const wellAfterMs = 60_000;
/** All queues of a computer with a few hundred jobs are well below this. */
const mostLineBytes = 1_048_576;
const mostWords = 300;

/** Runs a program whose lines are wanted for as long as the agent lives: watches it, and starts it anew. */
export function keepChild(command: ChildCommand, options: ChildOptions): KeptChild {
  const { silentMs, restartMs, clock, onLine, onTrouble } = options;
  let failures = 0;
  let restart: NodeJS.Timeout | null = null;
  let running: { end(): void; readonly gone: Promise<void> } | null = null;
  let isClosed = false;

  function start(): void {
    restart = null;
    const startedAtMonoMs = clock().monoMs;
    const { child, gone, failed } = run(command);
    let lastJunk = "";
    let lastWords = "";
    let isOver = false;
    let watch = setTimeout(silence, 3 * silentMs);
    running = { gone, end: () => child.kill("SIGKILL") };

    function over(trouble: Trouble): void {
      if (isOver) return;
      isOver = true;
      clearTimeout(watch);
      child.kill("SIGKILL");
      if (isClosed) return;
      onTrouble(trouble);
      if (clock().monoMs - startedAtMonoMs >= wellAfterMs) failures = 0;
      void gone.then(() => {
        if (!isClosed) restart = setTimeout(start, restartDelayMs(failures++, restartMs));
      });
    }

    function silence(): void {
      if (lastJunk === "") over({ fault: "timeout", detail: `nothing was heard for ${silentMs} ms` });
      else over({ fault: "unreadable", detail: `wrote what is not an answer: ${lastJunk}` });
    }

    function take(line: string | null): void {
      if (isOver || isClosed) return;
      if (line !== null && onLine(line)) {
        lastJunk = "";
        clearTimeout(watch);
        watch = setTimeout(silence, silentMs);
      } else if (line !== "") lastJunk = line?.slice(0, 80) ?? "bytes that are not UTF-8, or far too many";
    }

    child.stdout?.on("data", splitLines(mostLineBytes, take));
    child.stderr?.on("data", (bytes: Buffer) => {
      lastWords = `${lastWords}${bytes.toString("utf8")}`.slice(-mostWords);
    });
    void failed.then((error) => over(cannotStart(command, error)));
    child.once("exit", (code, signal) => {
      const detail = `${command.file} ended (${signal ?? `code ${code}`})`;
      over({ fault: "unreachable", detail: `${detail} ${lastWords.replace(/\s+/g, " ")}`.trim() });
    });
  }

  start();
  return {
    async close() {
      isClosed = true;
      if (restart) clearTimeout(restart);
      running?.end();
      await running?.gone;
    },
  };
}

/** Waiting time before the next start: twice as long after each failure. */
export function restartDelayMs(failures: number, restartMs: number): number {
  return Math.min(mostRestartMs, restartMs * 2 ** failures);
}

function run({ file, args, env }: ChildCommand): {
  child: ChildProcess;
  gone: Promise<void>;
  failed: Promise<NodeJS.ErrnoException>;
} {
  const child = spawn(file, args, {
    env: { ...process.env, ...env },
    stdio: ["ignore", "pipe", "pipe"],
    windowsHide: true,
  });
  const failed = new Promise<NodeJS.ErrnoException>((resolve) => child.on("error", resolve));
  const ended = new Promise<void>((resolve) => child.once("exit", () => resolve()));
  // What never started has no exit.
  const gone = child.pid === undefined ? failed.then(() => undefined) : ended;
  return { child, gone, failed };
}

function cannotStart({ file }: ChildCommand, { code, message }: NodeJS.ErrnoException): Trouble {
  if (code === "ENOENT")
    return {
      fault: "unsupported",
      detail: `there is no ${file} here: is this Windows? Elsewhere use kind ipp`,
    };
  return { fault: code === "EACCES" || code === "EPERM" ? "refused" : "unreachable", detail: message };
}
