import type { Warning } from "../results.js";
import { smallCell } from "../results-parts.js";
import { type Counting, rounded } from "./counting.js";

/** Facts that count injuries, and the fact that holds the whole of which each is a part, where there is one. */
const wholeOf: Readonly<Record<string, string | null>> = {
  n: "of",
  of: null,
  events: "n",
  lost: "n",
  other_lost: "other_n",
  other_n: null,
  persons: "injuries",
  injuries: null,
  left_out: null,
  used: null,
};
const units: Readonly<Record<string, "share" | "week" | "other">> = {
  share: "share",
  other_share: "share",
  last_day: "week",
  p: "other",
};

/** Warnings with their counts as they are told elsewhere; a share goes with the counts that it is made of. */
export const warningsWithout = (warnings: readonly Warning[], counting: Counting): Warning[] =>
  warnings.map(({ code, facts }) => {
    const told = Object.entries(facts).map(
      ([name, fact]) => [name, toldFact(name, facts, counting) ?? fact] as const,
    );
    const isHidden = told.some(([, fact]) => fact === smallCell);
    const kept = told.filter(([name]) => !(isHidden && units[name] === "share"));
    return { code, facts: Object.fromEntries(kept) };
  });

function toldFact(name: string, facts: Warning["facts"], { told, part }: Counting): number | string | null {
  const fact = facts[name];
  if (typeof fact !== "number") return null;
  const unit = units[name];
  if (unit !== undefined) return rounded(fact, unit);
  const whole = wholeOf[name];
  if (whole === undefined) return null;
  const of = whole === null ? undefined : facts[whole];
  return typeof of === "number" ? part(fact, of) : told(fact);
}
