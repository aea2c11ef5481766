import type { Warning } from "../results.js";
import { type Count, smallCell } from "../results-parts.js";
import { type Counting, shareOf } from "./counting.js";

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
  ids: "injuries",
  queries: null,
  left_out: null,
  used: null,
};
/** Facts that are a part over its whole. */
const partsOf: Readonly<Record<string, readonly [part: string, whole: string]>> = {
  share: ["lost", "n"],
  other_share: ["other_lost", "other_n"],
};
const units: Readonly<Record<string, "week" | "other">> = {
  last_day: "week",
  median_days: "week",
  upper_quartile_days: "week",
  p: "other",
  wide_days: "other",
  other_wide_days: "other",
};

/**
 * Warnings with their counts as they are told elsewhere; a share goes with the counts that it is made of.
 *
 * @param warnings as they were found
 * @param options completeness: of the follow-up, as it is told
 */
export const warningsWithout = (
  warnings: readonly Warning[],
  { counting, completeness }: { readonly counting: Counting; readonly completeness: number | null },
): Warning[] =>
  warnings.map(({ code, facts }) => {
    if (code === "completeness-low")
      return { code, facts: { ...facts, share: completeness ?? 0 }, could_move: null };
    const told = Object.entries(facts).map(
      ([name, fact]) => [name, toldFact(name, facts, counting) ?? fact] as const,
    );
    const isHidden = told.some(([, fact]) => fact === smallCell);
    const kept = told.filter(
      ([name, fact]) => fact !== smallCell && !(isHidden && (name in partsOf || name === "p")),
    );
    return {
      code,
      facts: Object.fromEntries(kept.map(([name, fact]) => [name, shareIn(name, kept) ?? fact])),
      // from an amount at full precision the counts behind it can be worked out
      could_move: null,
    };
  });

/** A share made of the counts as they are told; null for any other fact. */
function shareIn(name: string, told: readonly (readonly [string, number | string])[]): number | null {
  const counts = (partsOf[name] ?? []).map((of) => told.find(([fact]) => fact === of)?.[1]);
  const [part, whole] = counts as readonly (Count | undefined)[];
  return part === undefined || whole === undefined ? null : shareOf(part, whole);
}

function toldFact(
  name: string,
  facts: Warning["facts"],
  { told, part, rounded }: Counting,
): number | string | null {
  const fact = facts[name];
  if (typeof fact !== "number") return null;
  const unit = units[name];
  if (unit !== undefined) return rounded(fact, unit);
  const whole = wholeOf[name];
  if (whole === undefined) return null;
  const of = whole === null ? undefined : facts[whole];
  return typeof of === "number" ? part(fact, of) : told(fact);
}
