import { endingInWords, type Running } from "./startProcess.ts";

/** The processes of a demo, which start and end together. */
export type Crew = {
  /** Starts one more; throws once the crew has been told to stop. */
  add(start: () => Running, onDeath: (running: Running, how: string) => void): Running;
  /** Stops all, the last started first, and waits until they are gone. */
  stop(): Promise<void>;
};

/** An empty crew. `onDeath` is called for a process that ends before it was told to. */
export function gatherCrew(): Crew {
  const members: Running[] = [];
  let isStopping = false;
  return {
    add: (start, onDeath) => {
      if (isStopping) throw new Error("it was stopped while it was starting");
      const running = start();
      members.push(running);
      void running.ended.then((ending) => {
        if (!isStopping) onDeath(running, endingInWords(ending));
      });
      return running;
    },
    stop: async () => {
      isStopping = true;
      for (const running of members.toReversed()) if (running.isRunning()) await running.stop();
    },
  };
}
