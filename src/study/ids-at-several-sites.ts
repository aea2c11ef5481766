import type { OutcomeRecord } from "../cohort/record.js";
import { sharedKey } from "../schema/person-key.js";
import { shareAt } from "../statistics/index.js";
import { personsAmong } from "./columns.js";
import { type Grouping, groupingOf, type Settled } from "./groups.js";
import { landmarkDifference } from "./measures/landmark-difference.js";
import { pairsOf } from "./pairs.js";

/** How many person ids stand at more than one site, their injuries, and the people as whom these are counted. */
export interface IdsAtSeveralSites {
  readonly ids: number;
  readonly persons: number;
  readonly injuries: number;
}

/** The person ids that injuries of more than one site carry, an injury without a site being of none; null where there is none. */
export function idsAtSeveralSites(records: readonly OutcomeRecord[]): IdsAtSeveralSites | null {
  const ofId = new Map<string, OutcomeRecord[]>();
  for (const record of records) {
    const own = ofId.get(sharedKey(record.person));
    if (own === undefined) ofId.set(sharedKey(record.person), [record]);
    else own.push(record);
  }
  const several = [...ofId.values()].filter((own) => own.some(({ site }) => site !== own[0]!.site));
  if (several.length === 0) return null;
  const injuries = several.flat();
  return { ids: several.length, persons: personsAmong(injuries), injuries: injuries.length };
}

interface MainFigures {
  readonly all: Grouping;
  readonly compared: Grouping;
}

/**
 * How far an end of the interval of the main figure would move if each id were one person at all sites: of the difference in
 * the share back by the main landmark, like for like where the study holds something equal, or of everybody's share.
 *
 * @returns the largest of these moves, a share; null where none is known
 */
export function movedByShared({ all, compared }: MainFigures, asked: Settled): number | null {
  const shared = (grouping: Grouping): Grouping =>
    groupingOf(
      {
        ...grouping,
        members: grouping.groups.map(({ label, records }) => ({
          label,
          records: records.map((record) => ({ ...record, person: sharedKey(record.person) })),
        })),
      },
      asked,
    );
  const now = limitsOf({ all, compared }, asked);
  const other = limitsOf({ all: shared(all), compared: shared(compared) }, asked);
  const moves = now.flatMap((limit, i) => {
    const there = other[i] ?? null;
    return limit === null || there === null ? [] : [Math.abs(there - limit)];
  });
  return moves.length === 0 ? null : Math.max(...moves);
}

/** The limits of the main differences, or of everybody's share where no difference has any. */
function limitsOf({ all, compared }: MainFigures, asked: Settled): readonly (number | null)[] {
  const differences = pairsOf(compared, asked).flatMap((pair) => {
    const { crude, adjusted } = landmarkDifference.estimate(pair, asked);
    const main = [...adjusted, ...crude].find((one) => one.main && one.estimate.lower !== null);
    return main === undefined ? [] : [main.estimate.lower, main.estimate.upper];
  });
  if (differences.length > 0) return differences;
  const day = asked.landmarks.find(({ isMain }) => isMain)!.day;
  return all.groups.flatMap(({ curve }) => {
    const { returnedLower, returnedUpper } = shareAt(curve, day);
    return [returnedLower, returnedUpper];
  });
}
