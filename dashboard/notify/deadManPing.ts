import type { Clock } from "@boothward/shared-types";
import type { Logger } from "pino";
import { hasClockStepped } from "../alerts/ownTrouble.ts";
import type { Store } from "../store/openStore.ts";
import type { CallOut } from "./callOut.ts";
import { readNoticeSettings } from "./noticeSettings.ts";
import { ownNotice } from "./ownNotice.ts";
import { resultOfCall } from "./resultOfCall.ts";

export type DeadManOptions = {
  readonly store: Pick<Store, "notices" | "settings">;
  readonly clock: Clock;
  readonly log: Logger;
  readonly makeId: () => string;
  readonly callOut: CallOut;
  readonly wake: () => void;
};

export type DeadManPing = { tick(): Promise<void>; settled(): Promise<void> };

/** One call that fails is the network's mood; two in a row are said. */
const failuresToSay = 2;

/**
 * Calls the user's address each few minutes while the dashboard is well, so that something elsewhere notices when
 * it no longer does: it ticks, its store can be written, and its clock did not jump since the tick before.
 */
export function openDeadManPing({ store, clock, log, makeId, callOut, wake }: DeadManOptions): DeadManPing {
  let calledAtMonoMs: number | null = null;
  let before = clock();
  let calling: Promise<void> | null = null;
  let failures = 0;
  let failedFromAtMs = 0;

  function didJump(): boolean {
    const now = clock();
    const hasStepped = hasClockStepped(before, now);
    before = now;
    return hasStepped;
  }

  async function call(url: string): Promise<void> {
    const atMs = clock().wallMs;
    const headers = { "user-agent": "boothward" };
    const result = resultOfCall(
      await callOut({ method: "GET", url, headers, body: null }),
      atMs,
      () => "refused",
    );
    if (result.result === "sent") failures = 0;
    else await failed("said" in result ? result.said : result.reason, atMs);
  }

  async function failed(said: string, atMs: number): Promise<void> {
    failures += 1;
    if (failures === 1) failedFromAtMs = atMs;
    log.warn({ said, failures }, "the address that watches this dashboard could not be called");
    if (failures !== failuresToSay) return;
    const text = `The address that watches over this dashboard cannot be called: ${said}.`;
    await store.notices.add([ownNotice(makeId(), `ping:${failedFromAtMs}`, text, atMs)]);
    wake();
  }

  return {
    async tick() {
      const hasJumped = didJump();
      const { ping } = await readNoticeSettings(store.settings, null);
      if (ping === null || calling !== null || hasJumped) return;
      const { wallMs, monoMs } = clock();
      if (calledAtMonoMs !== null && monoMs - calledAtMonoMs < ping.everyMin * 60_000) return;
      // A store that cannot be written throws here, and nothing is called.
      await store.settings.put("wellAt", { atMs: wallMs }, wallMs);
      calledAtMonoMs = monoMs;
      calling = call(ping.url)
        .catch((error: unknown) => log.error({ err: error }, "the watching address could not be called"))
        .finally(() => (calling = null));
    },
    async settled() {
      await calling;
    },
  };
}
