import { randomBytes } from "node:crypto";
import { pino } from "pino";
import { v7 as makeId } from "uuid";
import { onTestFinished } from "vitest";
import type { CallOutOptions } from "../../dashboard/notify/callOut.ts";
import { openNotifier, type Notifier } from "../../dashboard/notify/openNotifier.ts";
import type { NewNotice } from "../../dashboard/store/notices.ts";
import { openStore, type Store } from "../../dashboard/store/openStore.ts";
import { openSqlite } from "../../dashboard/store/sqlite.ts";
import { aBoothRow } from "./aBoothRow.ts";
import { nearby } from "./aDashboard.ts";
import { sixAtMs } from "./aStoredItem.ts";
import { handTime, type HandTime } from "./handTime.ts";
import { scratchFolder } from "./scratchFolder.ts";

export type ANotifier = {
  readonly store: Store;
  readonly notifier: Notifier;
  readonly time: HandTime;
  readonly dataDir: string;
  /** Queues notices and sends what is due, until nothing is under way. */
  send(...notices: readonly NewNotice[]): Promise<void>;
  /** Lets time pass in steps and sends what falls due at each. */
  pass(ms: number, stepMs?: number): Promise<void>;
  /** Gives the owner a webhook to this address. */
  hook(url: string, label?: string): Promise<string>;
  /** Closes it all without waiting, and opens the same folder again. */
  reopen(): Promise<ANotifier>;
};

export const ama = { role: "owner", personId: "ama" } as const;

/** A notifier on a store of its own with one booth and one owner, at six o'clock by a hand clock. */
export async function aNotifier(
  over: Partial<CallOutOptions> = {},
  dataDir = scratchFolder(),
  time = handTime(sixAtMs),
): Promise<ANotifier> {
  const store = await openStore(openSqlite(dataDir));
  if (await store.accounts.isEmpty()) await furnish(store);
  const notifier = await openNotifier({
    ...{ store, clock: time.clock, log: pino({ level: "silent" }), makeId: () => makeId(), randomBytes },
    ...{ dice: () => 0.5, origin: () => "https://booths.example", outside: { ...nearby, ...over } },
  });
  let closing: Promise<void> | null = null;
  const close = () => (closing ??= notifier.close().then(() => store.close()));
  onTestFinished(close);
  const settle = async () => {
    await notifier.tick();
    await notifier.settled();
  };
  return {
    ...{ store, notifier, time, dataDir },
    async send(...notices) {
      await store.notices.add(notices);
      await settle();
    },
    async pass(ms, stepMs = 1_000) {
      for (let passed = 0; passed < ms; passed += stepMs) {
        time.pass(stepMs);
        await settle();
      }
    },
    async hook(url, label = "hook") {
      const reachId = makeId();
      const body = { url, secret: `whsec_${Buffer.alloc(32, 1).toString("base64")}` };
      await store.reaches.add(
        { reachId, way: "webhook", label, body, createdAtMs: time.clock().wallMs },
        ama,
        50,
      );
      return reachId;
    },
    async reopen() {
      await close();
      return aNotifier(over, dataDir, time);
    },
  };
}

async function furnish(store: Store): Promise<void> {
  await store.accounts.add({ accountId: "ama", name: "Ama", passwordHash: "", createdAtMs: 0 });
  await store.booths.add(aBoothRow(), 0);
}
