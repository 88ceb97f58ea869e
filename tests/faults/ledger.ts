import { join } from "node:path";
import { knownItem } from "@boothward/shared-types";
import Database from "better-sqlite3";
import * as z from "zod";
import { identityOf } from "./denseScenario.ts";

/** What became of a scenario's items in the dashboard's store. */
export type Ledger = {
  readonly stored: number;
  readonly lost: readonly string[];
  readonly doubled: readonly string[];
  /** Items of the scenario's source that the scenario does not hold. */
  readonly foreign: readonly string[];
};

const rows = z.array(z.object({ body: z.string() }));

/**
 * Compares what is in the store's file with what a scenario held. Reads the file past the dashboard's own
 * store, so that a fault of the store cannot hide itself; the dashboard may be running.
 */
export function readLedger(dataFolder: string, boothId: string, identities: readonly string[]): Ledger {
  const times = new Map<string, number>(identities.map((identity) => [identity, 0]));
  const foreign: string[] = [];
  for (const identity of storedIdentities(dataFolder, boothId)) {
    const before = times.get(identity);
    if (before === undefined) foreign.push(identity);
    else times.set(identity, before + 1);
  }
  const counted = [...times];
  return {
    stored: counted.reduce((sum, [, count]) => sum + Math.min(count, 1), 0),
    lost: counted.filter(([, count]) => count === 0).map(([identity]) => identity),
    doubled: counted.filter(([, count]) => count > 1).map(([identity]) => identity),
    foreign,
  };
}

function storedIdentities(dataFolder: string, boothId: string): string[] {
  const database = new Database(join(dataFolder, "boothward.db"), { readonly: true });
  try {
    const found = database
      .prepare(
        `select body from fact where "boothId" = :boothId
         union all select body from reading where "boothId" = :boothId`,
      )
      .all({ boothId });
    return rows.parse(found).flatMap(({ body }) => {
      const item = knownItem.parse(JSON.parse(body));
      // Beside the scenario's items its source has a state of its own, said anew by each boot.
      return item.source === "scenario" && item.kind !== "sourceState" ? [identityOf(item)] : [];
    });
  } finally {
    database.close();
  }
}
