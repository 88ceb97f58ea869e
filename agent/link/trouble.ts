import { closeCodes } from "@boothward/shared-types";

/** Why there is no link. */
export type TroubleWord =
  | "notPaired"
  | "revoked"
  | "wrongProtocol"
  | "replaced"
  | "badFrame"
  | "tooLarge"
  | "silent"
  | "noDashboard"
  | "unreachable";

/** A socket that did not open, or that ended: a WebSocket close code, or the HTTP status of a refusal. */
export type Ending = {
  readonly closeCode?: number;
  readonly status?: number;
  /** The other end's reason, or the network's error. */
  readonly words: string;
};

const wordsOfCode: ReadonlyMap<number, TroubleWord> = new Map([
  [closeCodes.badFrame, "badFrame"],
  [closeCodes.notPaired, "notPaired"],
  [closeCodes.revoked, "revoked"],
  [closeCodes.replaced, "replaced"],
  [closeCodes.tooLarge, "tooLarge"],
  // RFC 6455 section 7.4.1: a message too big to process; sent by the library itself.
  [1009, "tooLarge"],
  [closeCodes.wrongProtocol, "wrongProtocol"],
  [closeCodes.silent, "silent"],
]);

/** The word for how a link ended. */
export function troubleOf({ closeCode, status }: Ending): TroubleWord {
  if (status === 401) return "notPaired";
  if (status === 403) return "revoked";
  // 429 and the 500s are a dashboard, or what stands before it, in a bad moment.
  if (status !== undefined && status !== 429 && status < 500) return "noDashboard";
  return (closeCode !== undefined && wordsOfCode.get(closeCode)) || "unreachable";
}

/** Waiting time where trying again soon is of no use, ms; null: the usual back-off. */
export const waitOfTrouble: Readonly<Record<TroubleWord, number | null>> = {
  // Somebody may just be pairing it.
  notPaired: 30_000,
  // Only a person can undo it.
  revoked: 300_000,
  wrongProtocol: 300_000,
  // Two copies that replace each other must not do so many times a second.
  replaced: 60_000,
  badFrame: 30_000,
  tooLarge: null,
  silent: null,
  noDashboard: 30_000,
  unreachable: null,
};

/** The sentence for the person at this computer: what is wrong, and what to do about it. */
export function troubleSentence(word: TroubleWord, ending: Ending, dashboard: string): string {
  const kept = "What the booth sees is kept on this computer.";
  const pairIt =
    "ask for a pairing code on the dashboard's Set-up page, then run: " +
    `agent pair --config FILE --dashboard ${dashboard} --code CODE`;
  switch (word) {
    case "notPaired":
      return `This agent is not paired with ${dashboard}: ${pairIt}. ${kept}`;
    case "revoked":
      return `The dashboard at ${dashboard} has revoked this agent; it asks again every 5 minutes. To use it again, ${pairIt}. ${kept}`;
    case "wrongProtocol":
      return `Agent and dashboard speak different versions of the link (${ending.words}): update the older one. ${kept}`;
    case "replaced":
      return `Another agent with this one's pairing has taken over the link: is a copy of its data folder in use elsewhere? ${kept}`;
    case "badFrame":
      return `The link broke off over a frame that one end could not read (${ending.words}). ${kept}`;
    case "tooLarge":
      return `A batch was too large for the dashboard; sending smaller ones.`;
    case "silent":
      return `The dashboard at ${dashboard} stopped answering; connecting again. ${kept}`;
    case "noDashboard":
      return `What answers at ${dashboard} is not a Boothward dashboard (${ending.words}): check the address in the configuration. ${kept}`;
    case "unreachable":
      return `The dashboard at ${dashboard} cannot be reached (${ending.words}). ${kept}`;
  }
}
