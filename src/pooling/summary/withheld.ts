import type { ExactComparison, ExactGroup, ExactOtherEnd } from "./site-groups.js";

/**
 * Why a figure stays at the site:
 *
 * - `few-people`: fewer people are behind it than the smallest cell
 * - `by-subtraction`: it would tell of such a group by subtraction from the others
 * - `all-alike`: in a small group all are back, or none: it would tell the outcome of each of them
 */
export const withheldReasons = ["few-people", "by-subtraction", "all-alike"] as const;
export type WithheldReason = (typeof withheldReasons)[number];

/** In a group of fewer people than this many smallest cells, that all are back or none is not told: our choice. */
const cellsForAllAlike = 2;

/** What may leave of the figures of a site. */
export interface Release {
  /** Why nothing of a group leaves; null where it does. */
  readonly group: (group: ExactGroup) => WithheldReason | null;
  /** Why a figure of a group that leaves does not. */
  readonly figure: (group: ExactGroup, place: number) => WithheldReason | null;
  readonly otherEnd: (group: ExactGroup, end: ExactOtherEnd) => WithheldReason | null;
  readonly comparison: (comparison: ExactComparison) => WithheldReason | null;
  readonly difference: (comparison: ExactComparison, place: number) => WithheldReason | null;
}

/** Everything leaves. */
export const everything: Release = {
  group: () => null,
  figure: () => null,
  otherEnd: () => null,
  comparison: () => null,
  difference: () => null,
};

/**
 * What may leave where small cells are left out: figures of groups of enough people. From an estimate with its error somebody can work out
 * how many people are behind it and how many of them were back, but not who; so what is protected is the group: no group of fewer people
 * than the smallest cell is told of, neither by itself nor by subtraction, and no small group in which all came to the same.
 *
 * @param groups every group of the site, everybody first
 * @param smallest fewest people of a group that is told of
 */
export function releaseOf(groups: readonly ExactGroup[], smallest: number): Release {
  const kept = keptBack(groups, smallest);
  const isAlike = ({ persons, set }: ExactGroup, place: number): boolean => {
    const { value } = set.figures[place]!;
    return persons < cellsForAllAlike * smallest && (value === 0 || value === 1);
  };
  const ofLabel = (label: string) =>
    groups.find((group) => group.family === "compared" && group.label === label)!;
  return {
    group: (group) => kept.get(group) ?? null,
    figure: (group, place) => (isAlike(group, place) ? "all-alike" : null),
    otherEnd: ({ family, persons }, end) =>
      end.persons < smallest || isFew(persons - end.persons, smallest)
        ? "few-people"
        : family !== "all" && isFoundInFamily(end, { groups, family, smallest })
          ? "by-subtraction"
          : null,
    comparison: ({ compared, reference, persons }) =>
      kept.get(ofLabel(compared)) ??
      kept.get(ofLabel(reference)) ??
      (isFew(persons.compared, smallest) || isFew(persons.reference, smallest) ? "few-people" : null),
    difference: ({ compared, reference }, place) =>
      [compared, reference].some((label) => isAlike(ofLabel(label), place)) ? "all-alike" : null,
  };
}

/** Whether few people with an end, in a group of a family or in none of its groups, would be found from the others. */
function isFoundInFamily(
  { end }: ExactOtherEnd,
  {
    groups,
    family,
    smallest,
  }: {
    readonly groups: readonly ExactGroup[];
    readonly family: ExactGroup["family"];
    readonly smallest: number;
  },
): boolean {
  const eventsIn = ({ otherEnds }: ExactGroup) => otherEnds.find((one) => one.end === end)?.events ?? 0;
  const parts = groups.filter((group) => group.family === family).map(eventsIn);
  const inNone = eventsIn(groups[0]!) - parts.reduce((sum, n) => sum + n, 0);
  return [...parts, inNone].some((n) => isFew(n, smallest));
}

const isFew = (persons: number, smallest: number): boolean => persons > 0 && persons < smallest;

/** Groups of too few people, and those that have to stay so that these cannot be found by subtraction. */
function keptBack(groups: readonly ExactGroup[], smallest: number): ReadonlyMap<ExactGroup, WithheldReason> {
  const all = groups.find(({ family }) => family === "all")!;
  const grades = groups.filter(({ family }) => family === "grade");
  // with a later entry the curves of the compared groups are of other days than that of all, and do not add up to it
  const compared = groups.filter(({ family, entry }) => family === "compared" && entry === all.entry);
  const kept = new Map<ExactGroup, WithheldReason>(
    groups.filter(({ persons }) => persons < smallest).map((group) => [group, "few-people"]),
  );
  const isShown = (group: ExactGroup) => !kept.has(group);
  // people of injuries that are in no part that is shown: sums of people would not do, since one may be in two parts
  const hidden = (parts: readonly ExactGroup[]) => {
    const shown = parts.filter(isShown);
    const outside = [...all.members].filter(([injury]) => !shown.some(({ members }) => members.has(injury)));
    return new Set(outside.map(([, person]) => person)).size;
  };
  const isWholeKnown = () => isShown(all) || grades.every(isShown);
  const keepSmallest = (parts: readonly ExactGroup[]) => {
    const next = parts.filter(isShown).sort((one, other) => one.persons - other.persons)[0];
    if (next !== undefined) kept.set(next, "by-subtraction");
    return next !== undefined;
  };
  // one more grade stays until those that stay are enough together
  while (isWholeKnown() && isFew(hidden(grades), smallest) && keepSmallest(grades));
  // whoever is in no compared group is found as all less these: then the sum stays, and with it one grade
  if (compared.length > 0 && isWholeKnown() && isFew(hidden(compared), smallest)) {
    if (isShown(all)) kept.set(all, "by-subtraction");
    if (grades.every(isShown)) keepSmallest(grades);
  }
  return kept;
}
