import * as z from "zod/mini";

/**
 * The closed lists of words that both ends and the page use. What a person reads for each of them is
 * in the page's word files; these are the words of the code.
 */

/** How soon a person is needed. To people: "now", "soon", "good to know". */
export const severity = z.enum(["actNow", "plan", "note"]);
export type Severity = z.infer<typeof severity>;

/** How a booth is, as one word. `unknown` is never shown as well. */
export const health = z.enum(["fine", "watch", "needsAHand", "stopped", "silent", "unknown"]);
export type Health = z.infer<typeof health>;

/** Where a booth stands between the van and the van. */
export const readiness = z.enum([
  "packed",
  "onSite",
  "powered",
  "checked",
  "open",
  "onBreak",
  "closing",
  "packedDown",
]);
export type Readiness = z.infer<typeof readiness>;

/** How the figure of sheets left is known: by the printer's meter, by counting, by a person, or not well. */
export const mediaFigure = z.enum(["metered", "counted", "confirmed", "doubtful"]);
export type MediaFigure = z.infer<typeof mediaFigure>;

/** What an alert is about. */
export const matter = z.enum([
  "printerStopped",
  "mediaLow",
  "sparesShort",
  "countDoubtful",
  "tooHot",
  "sunComing",
  "agentSilent",
  "countsDiffer",
  "printerUnseen",
  "condensation",
  "heatForGuests",
  "onBattery",
  "diskShort",
  "clockOff",
  "cameraGone",
  "tabletGone",
  "routerGone",
  "uplinkLost",
  "boothIdle",
  "wrongPrintSize",
  "overrun",
  "notOpen",
  "testNotReceived",
  "attendantUnreached",
  "updatePending",
  "sleepOn",
]);
export type Matter = z.infer<typeof matter>;

/**
 * Where an alert stands, in the words of ISA-18.2; cleared and seen to is "normal", and is not listed. What a
 * person reads for them is "open", "taken", "over, nobody took it", "later", "silenced" and "switched off".
 */
export const alertState = z.enum([
  "unacknowledged",
  "acknowledged",
  "returnedUnacknowledged",
  "shelved",
  "suppressed",
  "outOfService",
]);
export type AlertState = z.infer<typeof alertState>;

/** Why an alert is suppressed by design. */
export const suppression = z.enum(["settingUp", "packingDown", "siteDark", "ownTrouble"]);
export type Suppression = z.infer<typeof suppression>;

/** What a person may answer to an alert: I'm on it, Later, Done. */
export const alertAnswer = z.enum(["take", "later", "done"]);
export type AlertAnswer = z.infer<typeof alertAnswer>;

/** Who may sign in. A client reads a report by its link, and signs in nowhere. */
export const role = z.enum(["owner", "attendant"]);
export type Role = z.infer<typeof role>;

/** What stands beside the booth's computer and can be gone. */
export const peerPart = z.enum(["camera", "tablet", "router", "uplink"]);
export type PeerPart = z.infer<typeof peerPart>;

/** Sizes of print that a booking may name, in inches; 2x6 is one strip of a pair. */
export const printSize = z.enum(["4x6", "2x6", "6x8"]);
export type PrintSize = z.infer<typeof printSize>;

/** IPP's own words for `printer-state` (RFC 8011 section 5.4.11). */
export const printerStateWord = z.enum(["idle", "processing", "stopped"]);
export type PrinterStateWord = z.infer<typeof printerStateWord>;

/** Why a source has no value. */
export const faultWord = z.enum([
  "timeout",
  "unreachable",
  "unsupported",
  "refused",
  "notFound",
  "unreadable",
  "missing",
]);
export type FaultWord = z.infer<typeof faultWord>;

/** What sessions may be counted by, the best first: a booth program's call, layouts, shots, jobs. */
export const sessionBasis = z.enum(["hook", "layouts", "shots", "jobs"]);
export type SessionBasis = z.infer<typeof sessionBasis>;

/** What pitches may be counted by, the best first: the printer's own counter, jobs, layouts, a booth program's call. */
export const pitchBasis = z.enum(["counter", "jobs", "layouts", "hook"]);
export type PitchBasis = z.infer<typeof pitchBasis>;

/** Kinds of event with a starting shape; any other word is allowed and is learned. */
export const knownEventKinds = ["wedding", "corporate", "party", "public", "gala"] as const;
