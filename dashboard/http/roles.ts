import type { Role } from "@boothward/shared-types";
import type { Owner } from "../store/accounts.ts";
import type { Attendant } from "../store/passes.ts";

/** A person who is signed in. */
export type Signed = Owner | Attendant;

const all: readonly Role[] = ["owner", "attendant"];
const ownerOnly: readonly Role[] = ["owner"];

/**
 * Who may do what: the one table. An attendant does what is listed at the booths of the pass only, which each
 * route asks by `hasBooth`.
 */
export const mayDo = {
  seeBooths: all,
  stateFacts: all,
  answerAlerts: all,
  seeAlerts: all,
  chooseReach: all,
  tryAlert: all,
  tickChecks: all,
  changeBooths: ownerOnly,
  pairAgents: ownerOnly,
  planEvents: ownerOnly,
  makePasses: ownerOnly,
  makeSignIns: ownerOnly,
  chooseSettings: ownerOnly,
  seeReports: ownerOnly,
  shareReports: ownerOnly,
  keepStock: ownerOnly,
} satisfies Record<string, readonly Role[]>;
export type Action = keyof typeof mayDo;

/** Whether the person may do it at all. */
export function mayAct(signed: Signed, action: Action): boolean {
  return mayDo[action].includes(signed.role);
}

/** Whether the booth is in the person's care: all are in the owner's. */
export function hasBooth(signed: Signed, boothId: string): boolean {
  return signed.role === "owner" || signed.boothIds.includes(boothId);
}

/** The id by which notices, settings and ways of reaching know a person: the account's, or the pass's. */
export function personIdOf(signed: Signed): string {
  return signed.role === "owner" ? signed.accountId : signed.passId;
}
