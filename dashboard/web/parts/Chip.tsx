import type { BoothView } from "@boothward/shared-types/view";
import { pressingAlert, quietStop, toneOf } from "../state/boothLook.ts";
import type { Tone } from "../state/boothLook.ts";
import { alertText } from "../words/alertText.ts";
import { chip as words } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { Icon } from "./Icon.tsx";

/** A status: icon, word and colour together. */
export function Chip({ tone, word }: { tone: Tone; word: string }) {
  return (
    <span class={`chip ${tone}`}>
      <Icon name={tone} size={17} />
      {word}
    </span>
  );
}

/** The status of a booth; what presses it most gives the word. */
export function BoothChip(props: { booth: BoothView; nowMs: number; format: Format; isCutOff: boolean }) {
  const { booth } = props;
  const tone = toneOf(booth, props.isCutOff);
  return <Chip tone={tone} word={wordOf(booth, tone, props.nowMs, props.format)} />;
}

function wordOf(booth: BoothView, tone: Tone, nowMs: number, format: Format): string {
  const why = quietStop(booth)?.suppressedBy;
  if (tone === "watch" && (why === "settingUp" || why === "packingDown")) return words[why];
  if (tone !== "act" && tone !== "plan") return words[tone];
  const alert = pressingAlert(booth);
  if (alert !== null) return alertText(alert, booth, nowMs, format).chip;
  return booth.health === "stopped" ? words.stopped : words.needsAHand;
}
