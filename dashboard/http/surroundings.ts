import type {
  BoothBox,
  BoothEvening,
  BusinessSettings,
  Clock,
  ReplayView,
  Report,
  ReportHistory,
  StoredItem,
} from "@boothward/shared-types";
import type { Logger } from "pino";
import type { Gate } from "../ingest/gate.ts";
import type { Live } from "../live/openLive.ts";
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
  /** Reports of evenings, counted from their facts. */
  readonly reports: {
    of(bookingId: string, atMs: number): Promise<Report | "noSuchBooking" | "nothingYet">;
    history(
      opened: { readonly fromAtMs: number; readonly toAtMs: number },
      atMs: number,
    ): Promise<ReportHistory>;
    business(): Promise<BusinessSettings>;
  };
  /** What about a booth's walls, openings and printer cannot be; null: nothing. */
  readonly whyNotBox: (box: BoothBox) => { readonly field: string; readonly sentence: string } | null;
  /** A booth or its plan was changed, or it is new. */
  readonly onPlanChanged: (boothId: string) => Promise<void>;
  readonly onFacts: (boothId: string, facts: readonly StoredItem[]) => void;
};
