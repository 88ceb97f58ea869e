import type { StockAdvice, StockView } from "@boothward/shared-types/stock";
import { rollCount, stock as words } from "../words/en/stock.ts";
import type { Format } from "../../alerts/format.ts";

/** What the stock comes to: the order to make, and the sentences that it rests on. */
export function stockVerdict(view: StockView, format: Format): { headline: string; because: string[] } {
  const { advice, moves } = view;
  if (moves.length === 0) return { headline: words.empty, because: [words.emptyLead] };
  if (advice === null) return { headline: words.countFirst, because: [words.countFirstLead] };
  const { lead, weekly } = advice;
  return {
    headline: headlineOf(advice, format),
    because: [
      [words.have(rollCount(advice.atHand), advice.onOrder), words.needed(advice.neededNow)].join(" "),
      ...(advice.isLate ? [words.late] : []),
      ...(advice.shortAtMs === null ? [] : [words.tooLateHelp]),
      [
        words.lead(words.days(lead.meanDays), words.days(lead.sdDays), lead.orders),
        weekly === null ? words.noWeekly : words.weekly(weekly.mean.toFixed(1), weekly.weeks),
      ].join(" "),
    ],
  };
}

function headlineOf(advice: StockAdvice, format: Format): string {
  const rolls = rollCount(advice.rolls);
  if (advice.shortAtMs !== null && !advice.isLate) return words.tooLateFor(format.day(advice.shortAtMs));
  if (advice.orderByAtMs === null) return words.noOrder(format.day(advice.untilAtMs));
  return advice.isLate ? words.orderNow(rolls) : words.orderBy(rolls, format.day(advice.orderByAtMs));
}
