import type { BoothView } from "@boothward/shared-types/view";

export type ThemeChoice = "byItself" | "light" | "dark";
export type Theme = "light" | "dark";

/** How long after sunset an open booth keeps the pages dark; short of the earliest sunrise of summer. */
const nightMs = 7 * 3_600_000;

/**
 * Light or dark: a person's own choice, else dark after sunset at the venue of an event that is on (an hour
 * before its opening to an hour after its close), else as the device says.
 */
export function themeOf(
  choice: ThemeChoice,
  isDeviceDark: boolean,
  booths: readonly BoothView[],
  nowMs: number,
): Theme {
  if (choice !== "byItself") return choice;
  const isNight = booths.some(({ booking }) => {
    if (booking?.sunsetAtMs == null) return false;
    const isOn = nowMs > booking.openAtMs - 3_600_000 && nowMs < booking.closeAtMs + 3_600_000;
    return isOn && nowMs >= booking.sunsetAtMs && nowMs < booking.sunsetAtMs + nightMs;
  });
  return isNight || isDeviceDark ? "dark" : "light";
}
