import type { OpeningCheck } from "@boothward/shared-types";
import { airChecks } from "./airChecks.ts";
import type { ChecksInput } from "./checksInput.ts";
import { type Found, notPossible, question, seen, toDo } from "./found.ts";
import { machineChecks } from "./machineChecks.ts";
import { paperChecks } from "./paperChecks.ts";
import type { SetUpFacts } from "./setUpFacts.ts";

/** Beats come every 10 s; after so long nothing that was seen before holds for now. */
const heardWithinMs = 60_000;

/**
 * The opening checks of a booth in the order of setting it up: what it sees by itself is proven by what it sent,
 * what only a person can see waits for a tick. A tick settles all but what the booth sees; and of a booth
 * that is not heard nothing is seen.
 */
export function openingChecks(input: ChecksInput): OpeningCheck[] {
  const { view, facts, atMs } = input;
  const isHeard = view.isLinked && view.heardAtMs !== null && atMs - view.heardAtMs < heardWithinMs;
  const bySelf = (found: readonly Found[]) => (isHeard ? found : found.map(unheard));
  const found: Found[] = [
    toDo("powerLocated"),
    toDo("level"),
    toDo("secured"),
    isHeard ? seen("agentHeard", view.heardAtMs) : toDo("agentHeard"),
    ...bySelf(machineChecks(input)),
    ...bySelf(paperChecks(input)),
    ...bySelf(airChecks(input)),
    toDo("whiteBalance"),
    toDo("rulesPosted"),
    testAlert(facts),
  ];
  return found.map((each) => ticked(each, facts));
}

/** How many lines still want somebody. */
export function countToDo(checks: readonly OpeningCheck[]): number {
  return checks.filter(({ state }) => state === "toDo" || state === "question").length;
}

function testAlert({ testHeard }: SetUpFacts): Found {
  if (testHeard === null) return toDo("testAlert");
  const { by, way, atMs } = testHeard;
  return { ...seen("testAlert", atMs, {}, [way]), by };
}

/** A sheet that came out is a sheet; all else may have changed since the booth was heard. */
function unheard(found: Found): Found {
  if (found.check === "testPrint" || found.state === "ticked") return found;
  if (found.check === "sparesThere") return question("sparesThere", found.figures);
  return notPossible(found.check, "unreachable");
}

function ticked(found: Found, { ticks }: SetUpFacts): OpeningCheck {
  const tick = ticks.get(found.check);
  if (found.state === "seen" || tick === undefined) return found;
  return { ...found, state: "ticked", by: tick.by, atMs: tick.atMs };
}
