import { Kysely, type Dialect } from "kysely";
import { accounts } from "./accounts.ts";
import { agents } from "./agents.ts";
import { alerts } from "./alerts.ts";
import { bookings } from "./bookings.ts";
import { booths } from "./booths.ts";
import { boothItems } from "./boothItems.ts";
import { checkpoints } from "./checkpoints.ts";
import { counts } from "./counts.ts";
import { deliveries } from "./deliveries.ts";
import { passes } from "./passes.ts";
import { migrate } from "./migrate.ts";
import { notices } from "./notices.ts";
import { oneTimeCodes } from "./oneTimeCodes.ts";
import { reaches } from "./reaches.ts";
import { reports } from "./reports.ts";
import { settings } from "./settings.ts";
import { stock } from "./stock.ts";
import { storeBatches } from "./storeBatches.ts";
import { whoHears } from "./whoHears.ts";
import type { Tables } from "./tables.ts";

export type Store = ReturnType<typeof storeOn> & { close(): Promise<void> };

/**
 * Opens the store on an engine and brings its tables up to date. `release` is called once it is closed.
 *
 * Every function of the store is one transaction: when its promise resolves, what it wrote is on disk.
 */
export async function openStore(engine: { dialect: Dialect; release(): void }): Promise<Store> {
  const db = new Kysely<Tables>({ dialect: engine.dialect });
  const close = async () => {
    await db.destroy();
    engine.release();
  };
  try {
    await migrate(db);
  } catch (error) {
    await close();
    throw error;
  }
  return { ...storeOn(db), close };
}

function storeOn(db: Kysely<Tables>) {
  return {
    accounts: accounts(db),
    oneTimeCodes: oneTimeCodes(db),
    booths: booths(db),
    agents: agents(db),
    boothItems: boothItems(db),
    checkpoints: checkpoints(db),
    counts: counts(db),
    bookings: bookings(db),
    alerts: alerts(db),
    passes: passes(db),
    reaches: reaches(db),
    notices: notices(db),
    deliveries: deliveries(db),
    settings: settings(db),
    whoHears: whoHears(db),
    reports: reports(db),
    stock: stock(db),
    storeBatches: storeBatches(db),
  };
}
