import type { BoothView } from "@boothward/shared-types/view";
import { nowMs } from "../state/signals.ts";
import { card as words } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** How long ago the booth's last frame came; goes on by itself each second. */
export function Age({ booth, format }: { booth: BoothView; format: Format }) {
  if (booth.heardAtMs === null) return <>{words.never}</>;
  return <>{words.ago(format.age(nowMs.value - booth.heardAtMs))}</>;
}
