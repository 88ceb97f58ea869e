import type { ReplayView } from "@boothward/shared-types/replayView";
import { replay as words } from "../words/en/replay.ts";
import type { Format } from "../../alerts/format.ts";

/** How the forecast would have done, the warning first, then its bands, then what it was made from. */
export function replaySentences(view: ReplayView, format: Format): { verdict: string; more: string } {
  const { asks, heldShare } = view.summary;
  const held =
    heldShare === null ? words.notHeld : words.held(format.count(heldShare * asks), format.count(asks));
  const counts = words.counts(format.count(view.sessions), format.count(view.sheetsUsed));
  return {
    verdict: verdictText(view, format),
    more: [held, counts, words.learned(view.pastEvenings)].join(" "),
  };
}

function verdictText({ summary }: ReplayView, format: Format): string {
  const { verdict, warnedAtMs, aheadMs } = summary;
  const at = warnedAtMs === null ? "" : format.clock(warnedAtMs);
  const ahead = format.minutes(aheadMs ?? 0);
  const end = endText(summary.rollEnd, format);
  switch (verdict) {
    case "warned":
      return words.verdict.warned(at, ahead, end);
    case "warnedLate":
      return (aheadMs ?? 0) > 0 ? words.verdict.late(at, ahead, end) : words.verdict.after(at, end);
    case "missed":
      return words.verdict.missed(end);
    case "lasted":
      return words.verdict.lasted;
    case "warnedInVain":
      return words.verdict.inVain(at);
    case "unknown":
      return words.verdict.unknown;
  }
}

function endText(rollEnd: ReplayView["summary"]["rollEnd"], format: Format): string {
  return rollEnd === null ? words.end.none : words.end[rollEnd.how](format.clock(rollEnd.atMs));
}

/** The picture as rows: at each moment what was forecast to the close, and what was really used. */
export function replayRows(view: ReplayView, format: Format): string[][] {
  return view.asks.map(({ atMs, demandToEnd, usedToEnd }) => [
    format.clock(atMs),
    demandToEnd === null
      ? words.noBand
      : words.band(
          format.count(demandToEnd.p50),
          format.count(demandToEnd.p10),
          format.count(demandToEnd.p90),
        ),
    format.count(usedToEnd),
  ]);
}
