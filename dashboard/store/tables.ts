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
  alertStep: AlertStepRow;
  pass: PassRow;
  passSignIn: PassSignInRow;
  reach: ReachRow;
  notice: NoticeRow;
  delivery: DeliveryRow;
  setting: SettingRow;
  reportCache: ReportCacheRow;
  reportCorrection: ReportCorrectionRow;
  reportLink: ReportLinkRow;
  boothCheckpoint: BoothCheckpointRow;
  stockMove: StockMoveRow;
  mediaOrder: MediaOrderRow;
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
  /** When nothing more could come of it; null: it lives. */
  closedAtMs: number | null;
  body: string;
};

/** One line of an alert's history; never changed. */
export type AlertStepRow = {
  stepId: string;
  alertId: string;
  boothId: string;
  atMs: number;
  step: string;
  /** ISA-18.2's word for where the alert stands after it; "normal" when it is over and seen to. */
  state: string;
  severity: string;
  by: string | null;
  /** What the person held, as far as its browser says. */
  device: string | null;
  /** The page's own id of what a person said: said twice, it counts once. */
  sayId: string | null;
};

/** An attendant's way in, by a link that ends with the event. */
export type PassRow = {
  passId: string;
  tokenHash: string;
  /** Whose name stands beside what is said with it. */
  name: string;
  /** Ids, JSON. */
  bookingIds: string;
  madeBy: string;
  createdAtMs: number;
  endsAtMs: number;
  revokedAtMs: number | null;
};

/** A device that came in by a pass; its cookie's token is kept hashed. */
export type PassSignInRow = {
  tokenHash: string;
  passId: string;
  device: string;
  createdAtMs: number;
  expiresAtMs: number;
};

/** One way to reach one person. */
export type ReachRow = {
  reachId: string;
  /** push, email, webhook or http. */
  way: string;
  /** One of both says whose it is. */
  accountId: string | null;
  passId: string | null;
  label: string;
  /** Address, keys or template, JSON. */
  body: string;
  createdAtMs: number;
  lastTakenAtMs: number | null;
  /** Since when nothing was taken; null: all is well. */
  troubleFromAtMs: number | null;
  lastSaid: string | null;
  endedAtMs: number | null;
  endedWhy: string | null;
};

/** One message about one alert to one of the two roles at a booth; sent once to each way of each person. */
export type NoticeRow = {
  noticeId: string;
  /** What makes it the only one of its sort: queued twice, it is there once. */
  onceKey: string;
  /** null: not about one alert (a digest, a test). */
  alertId: string | null;
  boothId: string | null;
  bookingId: string | null;
  why: string;
  severity: string;
  toRole: string;
  /** One person of that role; null: all of them. */
  toPersonId: string | null;
  /** At most 110 characters, booth first. */
  text: string;
  createdAtMs: number;
  dueAtMs: number;
  /** When its deliveries were made. */
  spreadAtMs: number | null;
  endedAtMs: number | null;
  ended: string | null;
};

/** One notice on one way to one person. */
export type DeliveryRow = {
  deliveryId: string;
  noticeId: string;
  reachId: string;
  state: string;
  tries: number;
  nextTryAtMs: number;
  lastSaid: string | null;
  takenAtMs: number | null;
  /** What the device says to confirm that it came, hashed. */
  arrivalHash: string;
  arrivedAtMs: number | null;
};

/** What the business chose, JSON by name; and keys made at the first run. */
export type SettingRow = { name: string; body: string; changedAtMs: number };

/** The report of an evening that is over, as it was counted; goes with any fact or reading that may change it. */
export type ReportCacheRow = {
  bookingId: string;
  boothId: string;
  /** The stretch whose items it was made of. */
  fromAtMs: number;
  toAtMs: number;
  /** What else it was made of: plan, booth, version. */
  madeOf: string;
  /** One line of the history, JSON; "null": nothing to report. */
  summary: string;
  /** The whole report, JSON. */
  body: string;
};

/** A figure that the owner put right; never changed. */
export type ReportCorrectionRow = {
  correctionId: string;
  bookingId: string;
  field: string;
  was: number | null;
  is: number;
  why: string;
  by: string;
  atMs: number;
};

/** A client's way to a report. The token is this id with a signature; nothing secret is stored. */
export type ReportLinkRow = {
  linkId: string;
  bookingId: string;
  madeBy: string;
  createdAtMs: number;
  revokedAtMs: number | null;
};

/** The state of a booth before an instant, as one build of the program folds it; a memo that late items take out. */
export type BoothCheckpointRow = {
  boothId: string;
  fromAtMs: number;
  build: string;
  /** The state, JSON. */
  body: string;
};

/** One line of the stock's ledger; never changed, never taken out. */
export type StockMoveRow = {
  moveId: string;
  /** What makes it the only one of its sort: said twice, it is there once. */
  onceKey: string;
  atMs: number;
  saidAtMs: number;
  by: string | null;
  fromPlace: string;
  toPlace: string;
  rolls: number;
  /** Sheets on the one part roll that moved. */
  partialSheets: number | null;
  why: string;
  /** JSON of what a count found. */
  counted: string | null;
  /** takenBack: which move. */
  takes: string | null;
  boothId: string | null;
  bookingId: string | null;
  orderId: string | null;
  note: string | null;
};

/** An order of rolls as it was written; its arrivals are moves. */
export type MediaOrderRow = {
  orderId: string;
  rolls: number;
  orderedAtMs: number;
  expectedAtMs: number | null;
  note: string | null;
};
