import { computed, signal } from "@preact/signals";
import type { BoothView, OwnFrame } from "@boothward/shared-types/view";
import type { Role } from "@boothward/shared-types/words";
import type { Format, Units } from "../../alerts/format.ts";
import { formatIn } from "../../alerts/format.ts";
import { greyAfterMs } from "./boothLook.ts";
import type { Theme, ThemeChoice } from "./theme.ts";

/** What the pages draw themselves from; `startPage` fills it, the screens only read it. */
export const booths = signal<readonly BoothView[]>([]);
/** True time as the dashboard tells it, on by itself each second. */
export const nowMs = signal(0);
/** The same in steps of a quarter of a minute, for what need not move each second. */
export const slowMs = computed(() => Math.floor(nowMs.value / 15_000) * 15_000);
/** When the last frame came; null: none yet. */
export const heardAtMs = signal<number | null>(null);
/** The live socket: first try under way, open, or lost and being tried again. */
export const link = signal<"asking" | "up" | "down">("asking");
/** The quarter of a minute that it is while the line is up, by which what is due now and then runs; else null. */
export const upAtMs = computed(() => (link.value === "up" ? slowMs.value : null));
/** The dashboard has been out of reach so long that nothing shown may be taken for the present. */
export const isCutOff = computed(
  () => link.value !== "up" && heardAtMs.value !== null && nowMs.value - heardAtMs.value > greyAfterMs,
);
/** What the dashboard says of itself. */
export const own = signal<OwnFrame>({ uplinkDownFromAtMs: null, clockSteppedAtMs: null });
/** Who looks: as the dashboard said last; before that what this device was last used as. */
export const me = signal<{ name: string; role: Role }>({ name: "", role: "owner" });
export const path = signal("/");
/** The address has changed since the page was loaded. */
export const hasMoved = signal(false);
export const isWide = signal(false);
export const units = signal<Units>("metric");
/** Light or dark as the page is painted now. */
export const theme = signal<Theme>("light");
export const themeChoice = signal<ThemeChoice>("byItself");

export const deviceZone = Intl.DateTimeFormat().resolvedOptions().timeZone;

/** The format of a booth's venue; of this device where no event is on. */
export function formatOf(booth: BoothView | null): Format {
  return formatIn(booth?.booking?.zone ?? deviceZone, units.value);
}

/** The one zone of all venues, or this device's where they differ or there is none. */
export const commonZone = computed(() => {
  const zones = new Set(booths.value.flatMap((booth) => booth.booking?.zone ?? []));
  const [zone] = zones;
  return zone !== undefined && zones.size === 1 ? zone : deviceZone;
});
