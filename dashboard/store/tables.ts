/**
 * The tables of the store, as the query layer sees them; `migrations/` makes them.
 *
 * Instants are Unix ms UTC in columns ending `AtMs`, unknown is null, JSON is text that is parsed by
 * schema when it is read, booleans are 0 or 1.
 */
export type Tables = {
  account: AccountRow;
  signIn: SignInRow;
  oneTime: OneTimeRow;
  booth: BoothRow;
  agent: AgentRow;
  boot: BootRow;
  fact: FactRow;
  reading: ReadingRow;
  keptAside: KeptAsideRow;
  booking: BookingRow;
  alert: AlertRow;
};

export type AccountRow = { accountId: string; name: string; passwordHash: string; createdAtMs: number };

/** A person's sign-in on one device; the cookie's token is kept hashed. */
export type SignInRow = {
  tokenHash: string;
  accountId: string;
  createdAtMs: number;
  expiresAtMs: number;
};

/** What a one-time code is good for: the first owner, another device of an account, a booth's agent. */
export type OneTimePurpose = "firstRun" | "signIn" | "pairing";

export type OneTimeRow = {
  codeHash: string;
  purpose: OneTimePurpose;
  /** signIn: whose account it opens. */
  accountId: string | null;
  /** pairing: for which booth. */
  boothId: string | null;
  createdAtMs: number;
  expiresAtMs: number;
  usedAtMs: number | null;
};

export type BoothRow = {
  boothId: string;
  name: string;
  isTrailer: number;
  kitSheets: number;
  limitC: number;
  createdAtMs: number;
  /** JSON, or null. */
  box: string | null;
};

export type AgentRow = {
  agentId: string;
  boothId: string;
  hostName: string;
  tokenHash: string;
  pairedAtMs: number;
  revokedAtMs: number | null;
  /** True time of its last frame, as far as it was written down. */
  heardAtMs: number | null;
};

/** One run of one steady clock of an agent. */
export type BootRow = {
  agentId: string;
  bootId: string;
  /** When it was first greeted or stored. */
  beganAtMs: number;
  throughSeq: number;
  /** The last clock samples, JSON. */
  samples: string;
  /** How far the wall clock was behind true time when last seen, ms. */
  wallBehindMs: number | null;
  /** When an item of this boot last claimed to be from the future. */
  doubtfulAtMs: number | null;
};

type ItemRow = {
  agentId: string;
  bootId: string;
  seq: number;
  boothId: string;
  source: string;
  kind: string;
  /** True time, whole ms. */
  atMs: number;
  receivedAtMs: number;
  /** The item as it was sent, JSON, fields of later versions included. */
  body: string;
};

export type FactRow = ItemRow & {
  /** Sessions and prints are counted once by their own id within a booth; null for other kinds. */
  onceKey: string | null;
  /** print: 4x6 lengths used, copies included. */
  pitches: number | null;
};

export type ReadingRow = ItemRow & { insideC: number | null };

/** An item whose fields were wrong, whole, with the name of the field. */
export type KeptAsideRow = {
  agentId: string;
  bootId: string;
  seq: number;
  boothId: string;
  kind: string;
  receivedAtMs: number;
  field: string;
  body: string;
};

/** `plan` is the booking's form as JSON; the columns are what the store asks by. */
export type BookingRow = {
  bookingId: string;
  boothId: string;
  openAtMs: number;
  closeAtMs: number;
  plan: string;
};

/** `body` is the alert as the rules keep it, JSON; the columns are what the store asks by. */
export type AlertRow = {
  alertId: string;
  boothId: string;
  matter: string;
  sinceAtMs: number;
  raisedAtMs: number | null;
  clearedAtMs: number | null;
  body: string;
};
