import type { FaultWord } from "@boothward/shared-types";
import { type Found, notPossible, seen, toDo } from "./found.ts";
import type { ChecksInput } from "./checksInput.ts";

/** Pictures of a session with their layout take about so much. Common practice, no source: four of 8 MB. */
const sessionMb = 40;

/** Less than this, and the system itself begins to stumble. Common practice, no source. */
const leastFreeMb = 2_000;

/** Sessions an hour that a booth takes at most (common practice, no source: 60 to 100 s each, door to door). */
const mostPerHour = 60;

/** So far off, and the times in the pictures' own data are wrong for a person. Our own choice. */
const clockOffMs = 60_000;

const hourMs = 3_600_000;

/** The booth's computer and what hangs on it: mains, clock, disk, update, sleep, camera. */
export function machineChecks(input: ChecksInput): Found[] {
  return [mains(input), clock(input), disk(input), update(input), sleep(input), camera(input)];
}

/** The fault of the source that would know; a source that nobody set up is missing. */
export function faultOf({ view }: Pick<ChecksInput, "view">, sourcePrefix: string): FaultWord {
  return view.faults.find(({ source }) => source.startsWith(sourcePrefix))?.fault ?? "missing";
}

function mains(input: ChecksInput): Found {
  const { power } = input.view;
  if (power === null) return notPossible("onMains", faultOf(input, "host"));
  const { isOnMains, batteryPct, sinceAtMs } = power;
  if (isOnMains) return seen("onMains", sinceAtMs, { isOnMains: 1 });
  if (input.booking.power?.source === "battery")
    return seen("onMains", sinceAtMs, { isOnMains: 0, batteryPct });
  return toDo("onMains", { batteryPct });
}

function clock({ view, atMs }: ChecksInput): Found {
  const isDoubtful = view.faults.some(({ source }) => source === "clock");
  if (view.clockOffMs === null) return notPossible("clock", "missing");
  const figures = { offMs: Math.abs(view.clockOffMs) };
  if (isDoubtful || figures.offMs > clockOffMs) return toDo("clock", figures);
  return seen("clock", atMs, figures);
}

/** Room for the pictures of as many sessions as the hours can hold. */
function disk(input: ChecksInput): Found {
  const { booking, diskFreeMb, atMs } = input;
  if (diskFreeMb === null) return notPossible("disk", faultOf(input, "host"));
  const openHours = (booking.closeAtMs - booking.openAtMs) / hourMs;
  const figures = { freeMb: diskFreeMb, needMb: leastFreeMb + openHours * mostPerHour * sessionMb };
  return diskFreeMb < figures.needMb ? toDo("disk", figures) : seen("disk", atMs, figures);
}

function update(input: ChecksInput): Found {
  const { machine } = input.facts;
  const isPending = machine?.isUpdatePending ?? null;
  if (machine === null || isPending === null) return notPossible("update", unseenFault(input));
  return isPending ? toDo("update") : seen("update", machine.atMs);
}

function sleep(input: ChecksInput): Found {
  const { machine } = input.facts;
  const sleepsAfterMin = machine?.sleepsAfterMin ?? null;
  if (machine === null || sleepsAfterMin === null) return notPossible("sleep", unseenFault(input));
  return sleepsAfterMin > 0 ? toDo("sleep", { sleepsAfterMin }) : seen("sleep", machine.atMs);
}

function unseenFault({ facts }: ChecksInput): FaultWord {
  return facts.machine === null ? "missing" : "unsupported";
}

/** A booth of several cameras lacks one when any is gone. */
function camera({ facts }: ChecksInput): Found {
  const cameras = facts.peers.filter(({ part }) => part === "camera");
  const [first] = cameras;
  if (first === undefined) return notPossible("camera", "missing");
  const gone = cameras.filter(({ isThere }) => !isThere);
  const names = (gone.length > 0 ? gone : cameras).flatMap(({ name }) => name ?? []);
  return gone.length > 0 ? toDo("camera", {}, names) : seen("camera", first.atMs, {}, names);
}
