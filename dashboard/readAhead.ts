import type { Booking } from "@boothward/shared-types";
import type { Logger } from "pino";
import { reportPdf } from "./documents/reportPdf.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import type { Reports } from "./openReports.ts";
import type { openPlannedUse } from "./plannedUse.ts";
import type { RollMoves } from "./rollMoves.ts";
import type { Store } from "./store/openStore.ts";

/** Of older events a first look may take longer. */
const seasonMs = 365 * 86_400_000;

/**
 * Reads in the background what a page after a start would have to wait for; between its pieces everything else goes
 * first. What coming events will use is reckoned once more when earlier evenings of their kinds are read. One report is
 * printed and thrown away: the first takes longest, by its faces.
 *
 * `close` reads no further, and resolves when nothing is being read.
 */
export function readAhead(of: {
  readonly store: Store;
  readonly rollMoves: RollMoves;
  readonly plannedUse: ReturnType<typeof openPlannedUse>;
  readonly evenings: Pick<KnownEvenings, "settled" | "before">;
  readonly reports: Pick<Reports, "of">;
  readonly atMs: number;
  readonly log: Logger;
}): { close(): Promise<void> } {
  const { store, rollMoves, plannedUse, evenings, reports, atMs, log } = of;
  const steps: readonly (() => Promise<unknown>)[] = [
    async () => rollMoves.of(await store.stock.moves(), atMs),
    () => plannedUse(atMs),
    () => evenings.settled(),
    () => plannedUse(atMs),
    readPast,
    printOne,
  ];
  let isClosed = false;

  async function over(): Promise<Booking[]> {
    return (await store.bookings.all()).filter(({ closeAtMs }) => closeAtMs <= atMs);
  }

  /** Evenings that plans of a season's events were made from, as many at once as one plan is made from. */
  async function readPast(): Promise<void> {
    for (const eventKind of new Set((await over()).map((booking) => booking.eventKind))) {
      let beforeAtMs = atMs;
      while (!isClosed && beforeAtMs > atMs - seasonMs) {
        const read = await evenings.before(eventKind, false, beforeAtMs);
        beforeAtMs = read[0]?.openAtMs ?? -Infinity;
      }
    }
  }

  async function printOne(): Promise<void> {
    const last = (await over()).at(-1);
    const report = last === undefined ? "nothingYet" : await reports.of(last.bookingId, atMs);
    if (typeof report === "string" || isClosed) return;
    await reportPdf(report.client, { name: "", logo: null, paper: "a4" }, report.client.throughAtMs);
  }

  const read = async () => {
    for (const step of steps) if (!isClosed) await step();
  };
  const reading = read().catch((error: unknown) => {
    if (!isClosed) log.error({ err: error }, "what pages show could not be read ahead");
  });
  return {
    close() {
      isClosed = true;
      return reading;
    },
  };
}
