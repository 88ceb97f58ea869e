import { onTestFinished } from "vitest";
import { type Outbox, type OutboxOptions, openOutbox } from "../../agent/outbox/outbox.ts";
import { keptLog } from "./keptLog.ts";

/** An outbox in a folder, quiet, with a clock that stands still, closed when the test has finished. */
export async function testOutbox(
  options: Pick<OutboxOptions, "folder"> & Partial<OutboxOptions>,
): Promise<Outbox> {
  const outbox = await openOutbox({
    clock: () => ({ wallMs: Date.UTC(2026, 5, 20, 18), monoMs: 5_000 }),
    wait: () => Promise.resolve(),
    log: keptLog().log,
    ...options,
  });
  onTestFinished(() => outbox.close());
  return outbox;
}
