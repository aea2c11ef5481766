import type { ExactComparison, ExactGroup } from "./site-groups.js";
import type { HeldBack } from "./site-summary.js";
import type { Release, WithheldReason } from "./withheld.js";

type Unless = Omit<HeldBack, "reason"> & { readonly reason: WithheldReason | null };

/** What stays at the site as a whole, and why. */
export function heldBack(
  {
    groups,
    comparisons,
  }: { readonly groups: readonly ExactGroup[]; readonly comparisons: readonly ExactComparison[] },
  release: Release,
): HeldBack[] {
  const none = { end: null, compared: null, reference: null, adjusted_for: [] };
  const ofGroups = groups.flatMap((group): Unless[] => {
    const { family, label, otherEnds } = group;
    const reason = release.group(group);
    if (reason !== null) return [{ of: "group", family, label, ...none, reason }];
    return otherEnds.map((end) => ({
      of: "end",
      family,
      label,
      ...none,
      end: end.end,
      reason: release.otherEnd(group, end),
    }));
  });
  const ofComparisons = comparisons.map(
    (one): Unless => ({
      of: "comparison",
      family: null,
      label: null,
      end: null,
      compared: one.compared,
      reference: one.reference,
      adjusted_for: [...one.adjustedFor],
      reason: release.comparison(one),
    }),
  );
  return [...ofGroups, ...ofComparisons].flatMap((one) => {
    const { reason } = one;
    return reason === null ? [] : [{ ...one, reason }];
  });
}
