/** How far the wall clock of a time zone is ahead of UTC at an instant, ms. Throws on a name that is no zone. */
export function zoneOffsetMs(atMs: number, zone: string): number {
  const whole = Math.floor(atMs / 1000) * 1000;
  const parts = new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  }).formatToParts(new Date(whole));
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
