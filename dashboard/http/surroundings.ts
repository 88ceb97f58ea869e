import type {
  BoothBox,
  BoothEvening,
  Clock,
  ReplayView,
  StockMove,
  StoredItem,
} from "@boothward/shared-types";
import type { Logger } from "pino";
import type { Gate } from "../ingest/gate.ts";
import type { Live } from "../live/openLive.ts";
import type { PlannedUse } from "../planning/stock/useAhead.ts";
import type { Store } from "../store/openStore.ts";
import type { Passwords } from "./passwordHash.ts";

/** What the HTTP side works with. */
export type HttpSurroundings = {
  readonly store: Store;
  readonly gate: Pick<Gate, "isLinked" | "revoked" | "paired">;
  readonly live: Pick<Live, "add" | "endSignIn">;
  readonly clock: Clock;
  readonly log: Logger;
  readonly passwords: Passwords;
  readonly randomBytes: (size: number) => Buffer;
  /** A new id, UUIDv7. */
  readonly makeId: () => string;
  /** What people type to reach the dashboard, where it is known: `https://booths.example`. */
  readonly origin: string | null;
  /** Failed tries at a password or code from one address in ten minutes. */
  readonly mostFailedTries: number;
  /** Null: no such booth. */
  readonly eveningOf: (boothId: string, atMs: number) => Promise<BoothEvening | null>;
  /** How the forecast would have done at a booking that is over; a word where there is nothing to replay. */
  readonly replayOf: (bookingId: string, atMs: number) => Promise<ReplayView | "noSuchBooking" | "notOver">;
  /** Moves of rolls that were said or seen at the booths. */
  readonly rollMoves: (written: readonly StockMove[], atMs: number) => Promise<StockMove[]>;
  /** What the coming bookings are expected to use, in rolls, the next first. */
  readonly plannedUse: (atMs: number) => Promise<(PlannedUse & { readonly bookingId: string })[]>;
  /** What about a booth's walls, openings and printer cannot be; null: nothing. */
  readonly whyNotBox: (box: BoothBox) => { readonly field: string; readonly sentence: string } | null;
  /** A booth or its plan was changed, or it is new. */
  readonly onPlanChanged: (boothId: string) => Promise<void>;
  readonly onFacts: (boothId: string, facts: readonly StoredItem[]) => void;
};
