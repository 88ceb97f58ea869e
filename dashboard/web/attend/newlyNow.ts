import type { BoothView } from "@boothward/shared-types/view";
import { standing } from "../state/boothLook.ts";

/** Alerts that are "now" and that nobody has taken or put off. */
export function callingIds(booths: readonly BoothView[], nowMs: number): string[] {
  return booths.flatMap((booth) =>
    standing(booth.alerts)
      .filter(({ severity, taken, laterUntilAtMs }) => {
        const isPutOff = laterUntilAtMs !== null && laterUntilAtMs > nowMs;
        return severity === "actNow" && taken === null && !isPutOff;
      })
      .map(({ alertId }) => alertId),
  );
}

/** More ids than an evening has. */
const mostKept = 200;

/** Which of these this device has not rung for yet; they are noted, so that each rings once, also after a reload. */
export function takeUnrung(ids: readonly string[], kept: Pick<Storage, "getItem" | "setItem">): string[] {
  const rung = (kept.getItem("rung") ?? "").split(" ").filter((id) => id !== "");
  const fresh = ids.filter((id) => !rung.includes(id));
  if (fresh.length > 0) kept.setItem("rung", [...rung, ...fresh].slice(-mostKept).join(" "));
  return fresh;
}
