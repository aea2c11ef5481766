import type { Warning } from "../study/results.js";
import { digitsOf } from "./units.js";

type Move = NonNullable<Warning["could_move"]>;

/** By what reading it is found how far a warning could move the main figure. */
const hows: Readonly<Record<Move["how"], string>> = {
  "worst-and-best-case": "if none, or all, of those lost were back",
  "other-share-back":
    "if a share back were read the other way, with or without competing ends among those not back",
  "earliest-and-latest-dates":
    "if every inexact return fell on its first possible day in one group and on its last in the other",
  "without-these-injuries": "if these injuries were left out",
  "without-those-queried": "if the injuries asked about, or those of one kind of query, were left out",
  "ids-shared": "at an end of its interval, if each such id were one person",
  "set-aside-alike": "if none, or all, of these injuries were back",
  "set-aside-opposed":
    "of the groups as they are, if these injuries all belonged to the groups compared, and all were back in one and none in the other",
  "crude-and-adjusted": "if all were compared as they are, without adjustment",
  "adjusted-for-it": "if it were held equal as well, in the strata that allow it",
};

/** How far a warning could move the main figure, as a clause after what was found; empty where that is not known. */
export function moveWords({ could_move: move }: Pick<Warning, "could_move">): string {
  if (move === null) return "";
  const how = hows[move.how];
  if (move.points === 0) return `which would not move the figure ${how}`;
  const digits = digitsOf(move.points, { unit: "percentage points" });
  if (digits === "0") return `which would move the figure by less than 1 percentage point ${how}`;
  return `which could move the figure by up to ${digits} ${digits === "1" ? "percentage point" : "percentage points"} ${how}`;
}
