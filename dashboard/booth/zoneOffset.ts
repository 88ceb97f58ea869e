/** How far the wall clock of a time zone is ahead of UTC at an instant, ms. Throws on a name that is no zone. */
export function zoneOffsetMs(atMs: number, zone: string): number {
  const whole = Math.floor(atMs / 1000) * 1000;
  const parts = clockOf(zone).formatToParts(whole);
  const part = (type: string) => Number(parts.find((each) => each.type === type)?.value);
  const wall = Date.UTC(
    part("year"),
    part("month") - 1,
    part("day"),
    part("hour"),
    part("minute"),
    part("second"),
  );
  return wall - whole;
}

/** To make one takes longer than to use it a hundred times; there are some four hundred zones. */
const clocks = new Map<string, Intl.DateTimeFormat>();

function clockOf(zone: string): Intl.DateTimeFormat {
  const known = clocks.get(zone);
  if (known !== undefined) return known;
  const clock = new Intl.DateTimeFormat("en-US", {
    ...{ timeZone: zone, hourCycle: "h23", year: "numeric", month: "numeric", day: "numeric" },
    ...{ hour: "numeric", minute: "numeric", second: "numeric" },
  });
  clocks.set(zone, clock);
  return clock;
}
