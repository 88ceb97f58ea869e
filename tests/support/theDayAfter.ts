import { openStore } from "../../dashboard/store/openStore.ts";
import { openSqlite } from "../../dashboard/store/sqlite.ts";
import { aBoothRow } from "./aBoothRow.ts";
import { aDashboard, type ADashboard } from "./aDashboard.ts";
import type { ReportedEvening } from "./aReportedEvening.ts";
import { addAgent } from "./aStore.ts";
import { hourMs, sixAtMs } from "./aStoredItem.ts";
import { handTime } from "./handTime.ts";
import { keepReported } from "./keepReported.ts";
import { scratchFolder } from "./scratchFolder.ts";

/** A dashboard at six on the day after an evening that one booth had. */
export async function theDayAfter(
  evening: ReportedEvening,
  over: Parameters<typeof aDashboard>[0] = {},
): Promise<ADashboard> {
  const dataDir = scratchFolder();
  const store = await openStore(openSqlite(dataDir));
  await store.booths.add(aBoothRow(), 0);
  await addAgent(store, "juniper");
  await keepReported(store, evening);
  await store.close();
  return aDashboard({ dataDir, clock: handTime(sixAtMs + 24 * hourMs).clock, ...over });
}
