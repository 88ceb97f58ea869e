import type { Transaction } from "kysely";
import type { Tables } from "./tables.ts";

type Arrived = {
  readonly boothId: string;
  readonly atMs: number;
  readonly item: { readonly kind: string };
};

/** These say something of evenings far from their own moment. */
const farReaching: ReadonlySet<string> = new Set(["takenBack", "authority"]);

/**
 * Takes out the reports that items which just came in may change, in the transaction that stores them: a report
 * that is kept is always that of all that is stored. Usually there is none: the report of an evening is kept only
 * once it is over.
 */
export async function forgetReports(trx: Transaction<Tables>, arrived: readonly Arrived[]): Promise<void> {
  if (arrived.length === 0) return;
  const isFar = arrived.some(({ item }) => farReaching.has(item.kind));
  let earliest = Infinity;
  let latest = -Infinity;
  for (const { atMs } of arrived) {
    earliest = Math.min(earliest, atMs);
    latest = Math.max(latest, atMs);
  }
  const own = trx
    .deleteFrom("reportCache")
    .where("boothId", "in", [...new Set(arrived.map(({ boothId }) => boothId))]);
  await (isFar ? own : own.where("toAtMs", ">", earliest).where("fromAtMs", "<=", latest)).execute();
}
