import type { PitchBasis } from "@boothward/shared-types";
import { sameDeedMs, type AuthorityChange } from "./authorities.ts";
import { usesBetween, type Bin, type Use } from "./bins.ts";
import type { CounterSeen } from "./counters.ts";
import { withEntry } from "./keyed.ts";

/** Which source of pitches counts at the moment, and what that is decided by. */
export type CountLedger = {
  readonly counters: readonly CounterSeen[];
  /** The best source that is alive, for each print queue, and for the booth program (key ""). */
  readonly leads: readonly Lead[];
  readonly authorities: readonly AuthorityChange[];
  /** Pitches that were counted by another source already and are passed over when this one tells of them. */
  readonly credit: { readonly pitches: number; readonly untilAtMs: number } | null;
};

export type Lead = { readonly key: string; readonly basis: PitchBasis; readonly atMs: number };

/** What a source saw, before it is decided whether it counts. */
export type SeenUse = Omit<Use, "counted" | "basis"> & { readonly basis: PitchBasis };

export const noCounts: CountLedger = { counters: [], leads: [], authorities: [], credit: null };

/** The best first: a printer knows what it printed, a booth program what it asked for. */
export const pitchBases: readonly PitchBasis[] = ["counter", "jobs", "layouts", "hook"];

/** A source silent for so long is no longer there, and the next best counts: another evening, another computer. */
const leadKeptMs = 6 * 3_600_000;

const programKey = "";

/**
 * Decides how many pitches of a use count. The best source that is there counts and the others are for
 * comparison, unless a person named one. Where a better source takes over, the first thing it tells of may have
 * been counted already and is not counted again: what others told of in the last minutes, or since `sinceAtMs`,
 * where what it tells of was all used since then.
 */
export function countUse(
  ledger: CountLedger,
  use: SeenUse,
  bins: readonly Bin[],
  sinceAtMs = use.atMs - sameDeedMs,
): { readonly ledger: CountLedger; readonly counted: number } {
  const key = keyOf(use);
  const lead = liveLead(ledger, key, use.atMs);
  const isBetter = lead === null || rankOf(use.basis) <= rankOf(lead.basis);
  const leads = isBetter
    ? withEntry(ledger.leads, (each) => each.key, { key, basis: use.basis, atMs: use.atMs })
    : ledger.leads;
  const led = { ...ledger, leads };
  if (!isOfAuthority(led, use)) return { ledger: led, counted: 0 };
  const isTakeover = isBetter && lead?.basis !== use.basis && byPerson(ledger) === null;
  const told = isTakeover ? countedSince(bins, use, sinceAtMs) : 0;
  const { credit, left } = useCredit(ledger.credit, Math.max(0, use.pitches - told), use.atMs);
  return { ledger: { ...led, credit }, counted: left };
}

/**
 * Takes in that a person named another source. What the two did not both tell of yet in the last minutes is
 * put right: paper that only the new one told of is counted now (`counted`), paper that only the old one told
 * of is passed over when it comes.
 */
export function changeAuthority(
  ledger: CountLedger,
  authorities: readonly AuthorityChange[],
  atMs: number,
  bins: readonly Bin[],
): { readonly ledger: CountLedger; readonly counted: number } {
  const changed = { ...ledger, authorities, credit: null };
  const lately = usesBetween(bins, atMs - sameDeedMs, Infinity).filter(isSeen);
  const ofNew = (use: SeenUse) => isOfAuthority(changed, use);
  const isThere = bins.some((bin) => bin.uses.filter(isSeen).some(ofNew));
  if (!isThere) return { ledger: changed, counted: 0 };
  const before = sumOf(lately, (use) => use.counted);
  const after = sumOf(lately.filter(ofNew), (use) => use.pitches);
  const credit = before > after ? { pitches: before - after, untilAtMs: atMs + sameDeedMs } : null;
  return { ledger: { ...changed, credit }, counted: Math.max(0, after - before) };
}

/** What pitches are counted by at the moment: a person's word, else the best lead; null: nothing counts them. */
export function pitchesBy(ledger: CountLedger): PitchBasis | null {
  const named = byPerson(ledger);
  if (named !== null) return named;
  const newest = Math.max(...ledger.leads.map((lead) => lead.atMs));
  const live = ledger.leads.filter((lead) => lead.atMs >= newest - leadKeptMs);
  return pitchBases.find((basis) => live.some((lead) => lead.basis === basis)) ?? null;
}

/** Whether the paper of a use is counted by its queue's counter. */
export function isCountedByCounter(ledger: CountLedger, use: SeenUse): boolean {
  const named = byPerson(ledger);
  return (
    (named === null || named === "counter") && liveLead(ledger, keyOf(use), use.atMs)?.basis === "counter"
  );
}

/** Whether a use is seen by the source that counts now. */
function isOfAuthority(ledger: CountLedger, use: SeenUse): boolean {
  const named = byPerson(ledger);
  const lead = liveLead(ledger, keyOf(use), use.atMs);
  if (named === "counter") {
    return use.basis === "counter" || (use.basis === "jobs" && lead?.basis !== "counter");
  }
  if (named !== null) return use.basis === named;
  if (lead?.basis !== use.basis) return false;
  const isPrinterThere = ledger.leads.some(
    (each) => each.key !== programKey && each.atMs >= use.atMs - leadKeptMs,
  );
  return lead.key !== programKey || !isPrinterThere;
}

function byPerson({ authorities }: CountLedger): PitchBasis | null {
  return authorities.at(-1)?.pitchesBy ?? null;
}

function liveLead({ leads }: CountLedger, key: string, atMs: number): Lead | null {
  return leads.find((lead) => lead.key === key && lead.atMs >= atMs - leadKeptMs) ?? null;
}

/** A printer's sources share its queue; the booth program's layouts and calls know no printer. */
function keyOf({ basis, queue }: SeenUse): string {
  return basis === "counter" || basis === "jobs" ? `queue ${queue ?? ""}` : programKey;
}

function rankOf(basis: PitchBasis): number {
  return pitchBases.indexOf(basis);
}

/** What another source of the same paper has counted since an instant. */
function countedSince(bins: readonly Bin[], use: SeenUse, sinceAtMs: number): number {
  const uses = usesBetween(bins, sinceAtMs, Infinity);
  const isSame = (other: Use) => other.queue === null || use.queue === null || other.queue === use.queue;
  return sumOf(
    uses.filter((other) => other.basis !== use.basis && isSame(other)),
    (other) => other.counted,
  );
}

function useCredit(credit: CountLedger["credit"], pitches: number, atMs: number) {
  if (credit === null || atMs > credit.untilAtMs) return { credit: null, left: pitches };
  const passed = Math.min(credit.pitches, pitches);
  const rest = credit.pitches - passed;
  return { credit: rest > 0 ? { ...credit, pitches: rest } : null, left: pitches - passed };
}

function isSeen(use: Use): use is Use & SeenUse {
  return use.basis !== "waste";
}

function sumOf<T>(list: readonly T[], of: (entry: T) => number): number {
  return list.reduce((sum, entry) => sum + of(entry), 0);
}
