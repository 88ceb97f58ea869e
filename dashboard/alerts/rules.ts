import type { Matter } from "@boothward/shared-types";
import type { Judged } from "./alert.ts";
import { judgeDifference, judgeDoubt } from "./judgeCounts.ts";
import { judgeMedia } from "./judgeMedia.ts";
import { judgePrinter } from "./judgePrinter.ts";
import { judgeHeat } from "./judgeHeat.ts";
import { judgeSilence } from "./judgeSilence.ts";
import { judgeSpares } from "./judgeSpares.ts";
import { judgeSun } from "./judgeSun.ts";
import type { Scene } from "./scene.ts";

/** One matter that may need a person: how it is judged, and for how long before it is said or taken back. */
export type Rule = {
  readonly matter: Matter;
  readonly judge: (scene: Scene) => Judged;
  /** Holds so long without a break before it is raised. */
  readonly holdMs: number;
  /** Is clear so long without a break before it is taken back. */
  readonly clearHoldMs: number;
  /** What clears and holds again within so long is the same alert, told of once. */
  readonly floorMs: number;
  readonly concerns: "attendant" | "owner" | "both";
  /** What is only foreseen. */
  readonly isForecast: boolean;
  /** Hidden while the booth is not heard; its clearing goes on. */
  readonly underSiteDark: boolean;
  /** When it is part of the work. */
  readonly normalIn: readonly ("settingUp" | "packingDown")[];
};

const ofTheBooth = { concerns: "attendant", isForecast: false, underSiteDark: true, normalIn: [] } as const;
const floorMs = 10 * 60_000;

/**
 * The rules. Their thresholds stand beside their judges; all are our own choice, to be set by the scored
 * record later.
 */
export const rules: readonly Rule[] = [
  // A jam does not clear by itself; five seconds outlast a queue that pauses between two jobs.
  {
    matter: "printerStopped",
    judge: judgePrinter,
    holdMs: 5_000,
    clearHoldMs: 5_000,
    floorMs,
    ...ofTheBooth,
  },
  // A forecast moves with every print: a minute, so that one busy session raises nothing.
  { matter: "mediaLow", judge: judgeMedia, holdMs: 60_000, clearHoldMs: 10_000, floorMs, ...ofTheBooth },
  { matter: "sparesShort", judge: judgeSpares, holdMs: 60_000, clearHoldMs: 10_000, floorMs, ...ofTheBooth },
  // A meter and the count part for a moment with every job, and a person may be answering already.
  { matter: "countDoubtful", judge: judgeDoubt, holdMs: 60_000, clearHoldMs: 5_000, floorMs, ...ofTheBooth },
  // Thermometers spike; air that is really too hot stays so.
  { matter: "tooHot", judge: judgeHeat, holdMs: 60_000, clearHoldMs: 30_000, floorMs, ...ofTheBooth },
  // The sun keeps its times; clouds are not known.
  { matter: "sunComing", judge: judgeSun, holdMs: 0, clearHoldMs: 0, floorMs, ...ofTheBooth },
  // The silence itself is the holding time.
  { matter: "agentSilent", judge: judgeSilence, holdMs: 0, clearHoldMs: 0, floorMs, ...ofTheBooth },
  // Half an hour of difference has passed before it is one.
  {
    matter: "countsDiffer",
    judge: judgeDifference,
    holdMs: 60_000,
    clearHoldMs: 60_000,
    floorMs,
    ...ofTheBooth,
  },
];
