import { endingInWords, type Running } from "../../seeds/startProcess.ts";

/** A program that is killed again and again, and started anew each time. */
export type Restarted = {
  /** Ends it as a power cut would and starts it anew; returns once the new one has begun to start. */
  killAndStart(): Promise<Running>;
  /** Throws with its last words if it ended without having been killed by us. */
  check(): void;
  stop(): Promise<void>;
};

/** Starts a program and keeps hold of whichever process of it runs now. */
export function startRestarted(start: () => Running): Restarted {
  let running = start();
  const check = (): void => {
    if (!running.isRunning())
      throw new Error(`${running.name} ended by itself; it said:\n  ${running.lastLines(20).join("\n  ")}`);
  };
  return {
    check,
    killAndStart: async () => {
      check();
      await running.kill();
      running = start();
      return running;
    },
    stop: async () => {
      const wasRunning = running.isRunning();
      const ending = await running.stop();
      if (wasRunning && ending.code !== 0)
        throw new Error(
          `${running.name} did not stop cleanly (${endingInWords(ending)}); it said:\n  ${running.lastLines(20).join("\n  ")}`,
        );
    },
  };
}
