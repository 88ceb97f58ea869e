import type { Logger } from "pino";
import type { KnownEvenings } from "./knownEvenings.ts";
import type { openPlannedUse } from "./plannedUse.ts";
import type { RollMoves } from "./rollMoves.ts";
import type { Store } from "./store/openStore.ts";

/**
 * Reads in the background what a page after a start would have to wait for; between its pieces everything else goes
 * first. What coming events will use is reckoned once more when earlier evenings of their kinds are read.
 *
 * `close` reads no further, and resolves when nothing is being read.
 */
export function readAhead(of: {
  readonly store: Store;
  readonly rollMoves: RollMoves;
  readonly plannedUse: ReturnType<typeof openPlannedUse>;
  readonly evenings: Pick<KnownEvenings, "settled">;
  readonly atMs: number;
  readonly log: Logger;
}): { close(): Promise<void> } {
  const { store, rollMoves, plannedUse, evenings, atMs, log } = of;
  const steps: readonly (() => Promise<unknown>)[] = [
    async () => rollMoves.of(await store.stock.moves(), atMs),
    () => plannedUse(atMs),
    () => evenings.settled(),
    () => plannedUse(atMs),
  ];
  let isClosed = false;
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
