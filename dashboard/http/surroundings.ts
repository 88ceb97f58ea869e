import type {
  AlertStory,
  Booking,
  BoothBox,
  BoothEvening,
  BusinessSettings,
  ChecksView,
  Clock,
  PlanView,
  ReplayView,
  Report,
  ReportHistory,
  StockMove,
  StoredItem,
} from "@boothward/shared-types";
import type { Logger } from "pino";
import type { Gate } from "../ingest/gate.ts";
import type { Live } from "../live/openLive.ts";
import type { CallOutOptions } from "../notify/callOut.ts";
import type { Notifier } from "../notify/openNotifier.ts";
import type { PlannedUse } from "../planning/stock/useAhead.ts";
import type { Store } from "../store/openStore.ts";
import type { AfterSaying, SaidToAlert } from "../alerts/answerAlert.ts";
import type { Passwords } from "./passwordHash.ts";

/** Another booth takes over an event from an instant on. */
export type Swap = {
  readonly bookingId: string;
  readonly toBoothId: string;
  readonly atMs: number;
  readonly saidAtMs: number;
  readonly by: string;
};

/** Why it cannot; `busy`: the other booth is at that client then. */
export type NoSwap =
  | { readonly refused: "noSuchBooking" | "noSuchBooth" | "sameBooth" | "notWithin" }
  | { readonly refused: "busy"; readonly client: string };

/** The booking that ends, the one that goes on, and the facts that were made. */
export type Swapped = {
  readonly ended: Booking;
  readonly begun: Booking;
  readonly facts: readonly StoredItem[];
};

/** What the HTTP side works with. */
export type HttpSurroundings = {
  readonly store: Store;
  readonly gate: Pick<Gate, "isLinked" | "revoked" | "paired">;
  readonly live: Pick<Live, "add" | "endSignIn">;
  readonly notifier: Pick<Notifier, "wake" | "pushKey">;
  readonly clock: Clock;
  readonly log: Logger;
  readonly passwords: Passwords;
  readonly randomBytes: (size: number) => Buffer;
  /** A new id, UUIDv7. */
  readonly makeId: () => string;
  /** What people type to reach the dashboard, where it is known: `https://booths.example`. */
  readonly origin: string | null;
  /** The dashboard itself speaks TLS. */
  readonly isTls: boolean;
  readonly outside: Pick<CallOutOptions, "ownAddresses">;
  /** Failed tries at a password or code from one address in ten minutes. */
  readonly mostFailedTries: number;
  /** Null: no such booth. */
  readonly eveningOf: (boothId: string, atMs: number) => Promise<BoothEvening | null>;
  /** How the forecast would have done at a booking that is over; a word where there is nothing to replay. */
  readonly replayOf: (bookingId: string, atMs: number) => Promise<ReplayView | "noSuchBooking" | "notOver">;
  /** What follows from a booking as it is planned; null: no such booking. */
  readonly planOf: (bookingId: string, atMs: number) => Promise<PlanView | null>;
  /** The opening checks of a booking; null: no such booking. */
  readonly checksOf: (bookingId: string, atMs: number) => Promise<ChecksView | null>;
  readonly swapBooth: (swap: Swap) => Promise<Swapped | NoSwap>;
  /** Reports of evenings, counted from their facts. */
  readonly reports: {
    of(bookingId: string, atMs: number): Promise<Report | "noSuchBooking" | "nothingYet">;
    history(
      opened: { readonly fromAtMs: number; readonly toAtMs: number },
      atMs: number,
    ): Promise<ReportHistory>;
    business(): Promise<BusinessSettings>;
  };
  /** Moves of rolls that were said or seen at the booths. */
  readonly rollMoves: (written: readonly StockMove[], atMs: number) => Promise<StockMove[]>;
  /** What the coming bookings are expected to use, in rolls, the next first. */
  readonly plannedUse: (atMs: number) => Promise<(PlannedUse & { readonly bookingId: string })[]>;
  /** What about a booth's walls, openings and printer cannot be; null: nothing. */
  readonly whyNotBox: (box: BoothBox) => { readonly field: string; readonly sentence: string } | null;
  /** A booth or its plan was changed, or it is new. */
  readonly onPlanChanged: (boothId: string) => Promise<void>;
  /** Takes what a person said to an alert. */
  readonly sayToAlert: (boothId: string, alertId: string, said: SaidToAlert) => Promise<AfterSaying>;
  /** Alerts since an instant with their stories; null: of all booths. */
  readonly alertStories: (
    boothIds: readonly string[] | null,
    fromAtMs: number,
    atMs: number,
  ) => Promise<AlertStory[]>;
  readonly onFacts: (boothId: string, facts: readonly StoredItem[]) => void;
};
