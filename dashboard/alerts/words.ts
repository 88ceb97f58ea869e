import type { AlertView } from "@boothward/shared-types";
import { commonWords } from "./commonWords.ts";
import { rarerWords } from "./rarerWords.ts";
import { tellingOf, type AlertWords, type Formatter, type Telling } from "./telling.ts";

/** The texts of one alert, in English. Pure: figures come from the alert, their form from `format`. */
export function alertWords(
  alert: AlertView,
  boothName: string,
  isTrailer: boolean,
  atMs: number,
  format: Formatter,
): AlertWords {
  return tellWords(tellingOf(alert, boothName, isTrailer, atMs, format));
}

/** The same with the booth called as is said. */
export function tellWords(telling: Telling): AlertWords {
  return commonWords(telling) ?? rarerWords(telling);
}
