import type { MoveLine } from "@boothward/shared-types/stock";
import { rollCount, stockMoves as words, stockPlaces } from "../words/en/stock.ts";
import { placeWords, type PlaceNames } from "./placeWords.ts";

/** A line of the ledger in words. */
export function moveText(move: MoveLine, names: PlaceNames): string {
  const amount = words.amount(move.rolls, move.partialSheets);
  const [from, to] = [placeWords(move.fromPlace, names), placeWords(move.toPlace, names)];
  switch (move.why) {
    case "counted": {
      const { fullRolls, partials } = move.counted ?? { fullRolls: 0, partials: [] };
      const parts = partials.length === 0 ? "" : ` ${stockPlaces.parts(partials)}`;
      return words.counted(to, rollCount(fullRolls) + parts);
    }
    case "ordered":
      return words.ordered(amount);
    case "arrived":
      return words.arrived(amount);
    case "bought":
      return words.bought(amount, to);
    case "used":
      return words.used(amount, from);
    case "takenBack":
      return words.taking;
    case "returned":
      return move.fromPlace === "used" ? words.cameOff(amount, to) : words.moved(amount, from, to);
    case "loaded":
    case "corrected":
    case "lost":
      return words.moved(amount, from, to);
  }
}
