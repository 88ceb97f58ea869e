import type { QuietHours, Severity } from "@boothward/shared-types";
import type { Store } from "../store/openStore.ts";
import type { Person } from "../store/reaches.ts";
import { readQuietHours } from "./noticeSettings.ts";
import { quietUntilAtMs } from "./quietHours.ts";

/** A person's quiet hours: an owner's own; whoever stands at a booth has none. */
export async function quietOf(
  settings: Store["settings"],
  { role, personId }: Pick<Person, "role" | "personId">,
): Promise<QuietHours | null> {
  return role === "owner" ? readQuietHours(settings, personId) : null;
}

/** Until when something is not said in quiet hours, which "now" passes; null: it may be said. */
export function quietUntil(
  { severity }: { readonly severity: Severity },
  quiet: QuietHours | null,
  atMs: number,
): number | null {
  return quiet === null || severity === "actNow" ? null : quietUntilAtMs(quiet, atMs);
}
