import type { ChangeAdvice, ChangeCost } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { emptyChance, groupsBetween } from "./alongDemand.ts";
import { costAt, costAtEmpty } from "./changeCosts.ts";
import { lullAround } from "./lullAround.ts";
import { changeMs, wasteAtChange } from "./rollWaste.ts";

/** With a risk under this there is nothing to be weighed. Our own choice. */
const smallRisk = 0.1;

/**
 * A group that waits for a change counts as much as so many sheets: one in five of them leaves (our own guess),
 * and a group that leaves costs the business about forty sheets of what it is paid for an evening.
 */
const groupInSheets = 8;

/**
 * Of what is set aside so much is lost in the end, beside the waste of fitting it again: partial rolls are
 * forgotten or get damp. Throwing it away would lose all. Our own guess.
 */
const lostOfSetAside = 0.05;

/** Nobody keeps a roll with fewer sheets. Our own guess. */
const worthKeeping = 15;

/** A roll with more sheets than this is left on: it is a spare that would be missed later. Our own choice. */
const mostSetAside = 100;

/** An end that somebody waits for with the next roll in hand: the last sheet of the old one, often. */
const lostAtEnd = 2;

/** An end that nobody waits for: somebody has to notice it, and the print that it caught is lost. Our own guesses. */
const surprise = { noticeMs: 2 * 60_000, sheets: 2 };

/** A person fits the roll when there is a gap: in so much time from the moment that was said. */
const slackMs = 5 * 60_000;

/**
 * When to change the loaded roll: the moment at which guests that wait and sheets that are lost cost least
 * together, the risk of its running out before included. `advised` is `atEmpty` where waiting for its end with
 * the next roll in hand costs least.
 *
 * `ahead` runs to the close. Null: the roll lasts, as good as surely; or there is no spare to change to.
 */
export function changeAdvice(
  ahead: DemandAhead,
  sheetsLeft: number,
  spareRolls: number | null,
): ChangeAdvice | null {
  const last = ahead.stepsAtMs.length - 1;
  const ends = emptyChance(ahead, last, sheetsLeft);
  const atEmpty = costAtEmpty(ahead, sheetsLeft);
  if (spareRolls === 0 || last < 1 || ends < smallRisk || atEmpty === null) return null;
  const end = { cost: atEmpty, burden: atEmpty.groupsDelayed * groupInSheets + lostAtEnd };
  const advised = isLastSheets(ahead, sheetsLeft)
    ? costAt(ahead, sheetsLeft, ahead.atMs)
    : cheapest(ahead, sheetsLeft, end, ends);
  const before = ahead.stepsAtMs.findLastIndex((atMs) => atMs <= advised.atMs);
  return {
    advised,
    atEmpty,
    lull: lullAround(ahead, advised.atMs, Math.max(atEmpty.atMs, advised.atMs + 1)),
    emptyBeforeChance: emptyChance(ahead, before, sheetsLeft),
  };
}

type Weighed = { readonly cost: ChangeCost; readonly burden: number };

/** What is left is not enough for the next group: its print would be caught. */
function isLastSheets(ahead: DemandAhead, sheetsLeft: number): boolean {
  return sheetsLeft < ahead.sheetsPerSession;
}

/** The moment that burdens least, in sheets; the end itself where nothing is better. */
function cheapest(ahead: DemandAhead, sheetsLeft: number, end: Weighed, ends: number): ChangeCost {
  let best: Weighed = { cost: end.cost, burden: ends * end.burden };
  ahead.stepsAtMs.slice(0, -1).forEach((atMs, step) => {
    const empty = emptyChance(ahead, step, sheetsLeft);
    const caught = empty * (end.burden + surpriseBurden(ahead, atMs));
    const waiting = caught + (1 - empty) * delayBurden(ahead, atMs);
    if (waiting >= best.burden) return;
    const cost = costAt(ahead, sheetsLeft, atMs);
    if (cost.sheetsSetAside > mostSetAside) return;
    const burden = waiting + (1 - empty) * lostOf(cost.sheetsSetAside / (1 - empty));
    if (burden < best.burden) best = { cost, burden };
  });
  return best.cost;
}

/** What a change costs those who come meanwhile, in sheets, when a person finds the gap for it. */
function delayBurden(ahead: DemandAhead, atMs: number): number {
  const groups = groupsBetween(ahead, atMs, atMs + slackMs + changeMs) * (changeMs / (slackMs + changeMs));
  return groups * groupInSheets;
}

/** What is lost of sheets that are set aside: a few are thrown away; more come back and cost another fitting. */
function lostOf(setAside: number): number {
  return setAside < worthKeeping ? setAside : wasteAtChange.usual + lostOfSetAside * setAside;
}

function surpriseBurden(ahead: DemandAhead, atMs: number): number {
  const groups = groupsBetween(ahead, atMs, atMs + surprise.noticeMs);
  return groups * groupInSheets + surprise.sheets;
}
