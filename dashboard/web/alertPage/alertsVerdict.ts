import { alertText } from "../words/alertText.ts";
import { alertPage as words } from "../words/en/alerts.ts";
import type { Format } from "../../alerts/format.ts";
import type { Alerts, Listed } from "./listed.ts";

/** The one sentence over all alerts, and the first of them below it. */
export function alertsVerdict(
  { open, untaken }: Alerts,
  nowMs: number,
  formatOf: (listed: Listed) => Format,
): { headline: string; more: string } {
  const of = (severity: "actNow" | "plan" | "note") =>
    open.filter(({ alert }) => alert.severity === severity);
  const [now, soon, notes] = [of("actNow"), of("plan"), of("note")];
  const free = now.filter(({ alert }) => alert.state === "unacknowledged");
  const rest = [
    ...(soon.length > 0 ? [words.more.soon(soon.length)] : []),
    ...(notes.length > 0 ? [words.more.note(notes.length)] : []),
  ];
  const first = (listed: Listed | undefined) =>
    listed?.booth == null ? [] : [alertText(listed.alert, listed.booth, nowMs, formatOf(listed)).headline];
  if (free.length > 0)
    return { headline: words.now(free.length), more: [...first(free[0]), ...rest].join(" ") };
  if (now.length > 0)
    return { headline: words.nowTaken(now.length), more: [...first(now[0]), ...rest].join(" ") };
  if (soon.length > 0)
    return { headline: words.soon(soon.length), more: [...first(soon[0]), ...rest.slice(1)].join(" ") };
  if (notes.length > 0) return { headline: words.notes(notes.length), more: first(notes[0]).join(" ") };
  if (untaken.length > 0) return { headline: words.untaken(untaken.length), more: "" };
  return { headline: words.none, more: words.noneMore };
}
