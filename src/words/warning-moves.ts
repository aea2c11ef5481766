import type { Warning } from "../study/results.js";
import { digitsOf } from "./units.js";

/** By what reading it is found how far a warning could move the main figure. */
const hows: Readonly<Record<NonNullable<Warning["could_move"]>["how"], string>> = {
  "worst-and-best-case": "if none, or all, of those lost were back",
  "other-share-back":
    "if a share back were read the other way, with or without competing ends among those not back",
  "earliest-and-latest-dates":
    "if every inexact return fell on its first possible day in one group and on its last in the other",
  "without-these-injuries": "without these injuries",
  "crude-and-adjusted": "between the crude and the adjusted figure",
  "ids-shared": "at an end of its interval, if each such id were one person",
  "adjusted-for-it": "if it were held equal as well, in the strata that allow it",
};

/** How far a warning could move the main figure, in a sentence; empty where that is not known. */
export function moveWords({ could_move: move }: Warning): string {
  if (move === null) return "";
  const digits = digitsOf(move.points, { unit: "percentage points" });
  const size = move.points > 0 && digits === "0" ? "less than 1" : digits;
  return `${size} ${size === "1" || size === "less than 1" ? "percentage point" : "percentage points"} ${hows[move.how]}`;
}
