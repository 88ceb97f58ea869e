import type { AlertView } from "@boothward/shared-types";
import { saysWhatToDo, shortName, type Formatter } from "./telling.ts";
import { tellWords } from "./words.ts";

/** What a lock screen shows of a message before it is opened (common practice, no source). */
export const mostNoticeLength = 110;

/** Tried in this order: a name that is cut is better than a thing to do that is. */
const nameLengths = [30, 24, 18, 12, 8];

/** One message about an alert: which booth first, what, and always the one thing to do. At most 110 characters. */
export function noticeText(
  alert: AlertView,
  boothName: string,
  isTrailer: boolean,
  atMs: number,
  format: Formatter,
): string {
  for (const most of nameLengths) {
    const words = tellWords({ alert, who: shortName(boothName, most), isTrailer, atMs, format });
    const text = saysWhatToDo(words) ? words.headline : `${words.headline} ${words.doNow}`;
    if (text.length <= mostNoticeLength) return text;
  }
  const { doNow } = tellWords({ alert, who: "", isTrailer, atMs, format });
  const room = mostNoticeLength - doNow.length - 2;
  return `${shortName(boothName, Math.min(30, room))}: ${doNow}`;
}
