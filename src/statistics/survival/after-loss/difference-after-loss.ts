import { clusterIndex } from "../../shared/clusters.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  list,
  type NamesOf,
  needed,
  number,
  type OptionsOf,
  type Read,
  readOptions,
  withDefault,
} from "../../shared/options.js";
import { rowsOf } from "../../shared/time-to-event.js";
import type { CompetingEvents } from "../competing-events.js";
import { competingEventsNames } from "../competing-events.js";
import { causeOption } from "../incidence-curve.js";
import { preparedCause } from "../prepared-event.js";
import { shareDifference } from "../small-sample.js";
import type { Cell, Pair } from "../standardised-cells.js";
import { standardisedShareOf } from "../standardised-shares.js";
import type { Standardisable } from "../standardised-sums.js";
import { checkGroupsAndStrata, strataToUse } from "../strata-to-use.js";
import { checkFactors } from "./factors.js";
import { checkLoss, type LossEvents, lossEventsNames } from "./loss-columns.js";
import { type LossCell, lossCellOf, lossFigure } from "./loss-course.js";
import { lostBefore, shareSupposed } from "./share-after-loss.js";
import { type Tipping, tippingOf } from "./tipping.js";

/** Rows of two groups (0 and 1); with strata the shares are averaged over them, at one mix for both groups. */
export interface LossInGroups extends LossEvents {
  readonly groups: ArrayLike<number>;
  readonly strata?: ArrayLike<number>;
}

const lossInGroupsNames: NamesOf<LossInGroups> = { groups: true, strata: true, ...lossEventsNames };

export const differenceAfterLossOptions = {
  /** Time by which the shares are compared, 0 or more. */
  time: needed(number("not negative")),
  /** Factors of group 1, each above 0 and at most 1e6; those of group 0 are their inverses. Default none. */
  factors: withDefault(list<ArrayLike<number>>(), []),
  /** With strata: where follow-up has to reach in both groups of a stratum, as for standardisedCurves. Default: the time. */
  horizon: number("positive"),
  /** With strata: fewest rows that each group needs in a stratum. Default 5. */
  smallest: number("count", 5),
  /** Default 0.95. */
  level: confidenceLevel,
  ...causeOption,
};

export interface DifferenceAfterLossOptions extends OptionsOf<typeof differenceAfterLossOptions> {}

/** Group 1 less group 0 under one supposition. */
export interface DifferenceSupposed {
  readonly difference: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: Reason | null;
}

export interface DifferenceAtFactor extends DifferenceSupposed {
  /** Of group 1; that of group 0 is its inverse. */
  readonly factor: number;
}

export interface DifferenceAfterLoss {
  readonly time: number;
  readonly level: number;
  /** Lost before the time in group 0 and group 1, of the rows that the difference rests on. */
  readonly lost: Pair<number>;
  /** None of the lost of group 1 and all of group 0 have the event by the time; and the other way about. */
  readonly lowest: DifferenceSupposed;
  readonly highest: DifferenceSupposed;
  /** One a factor, in the order asked. */
  readonly points: readonly DifferenceAtFactor[];
  /** By what factor the interval comes to hold 0 where it did not, or leaves it; null where nobody was lost, or there is no interval. */
  readonly tipping: Tipping | null;
}

type SupposedAt = (factor: number) => DifferenceSupposed;

/**
 * Difference of the shares with an event by a time, if those lost to follow-up were unlike those followed, as shareAfterLoss supposes it, in opposite ways
 * in the two groups: the hazard of the lost multiplied by a factor in group 1 and divided by it in group 0.
 *
 * No factors of the two groups that both lie between 1 / f and f take the difference beyond those at f and at 1 / f, since each share rises with its
 * factor: so the factor at which the interval comes to hold 0, or leaves it, is the least unlikeness that can change what is concluded, and the
 * ends of the path are the worst and the best case. Without strata the limits are those of shareDifference, with strata those of standardisedCurves, whose strata
 * are used; at the factor 1 both give these functions' figures.
 *
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Jackson, White, Seaman, Evans, Baisley & Carpenter 2014, Stat Med 33:4681
 */
export function differenceAfterLoss(
  columns: LossInGroups,
  options: DifferenceAfterLossOptions,
): DifferenceAfterLoss {
  checkColumnNames(lossInGroupsNames, { columns });
  const asked = readOptions(differenceAfterLossOptions, options);
  checkFactors(asked.factors);
  checkLoss(columns);
  const strata = columns.strata === undefined ? new Uint8Array(columns.times.length) : columns.strata;
  checkGroupsAndStrata({ ...columns, strata });
  const { time, level, factors } = asked;
  const { lost, supposedAt } =
    columns.strata === undefined ? asTheyAre(columns, asked) : likeForLike({ ...columns, strata }, asked);
  return {
    time,
    level,
    lost,
    lowest: supposedAt(0),
    highest: supposedAt(Number.POSITIVE_INFINITY),
    points: Array.from(factors, (factor) => ({ factor, ...supposedAt(factor) })),
    tipping:
      lost[0] + lost[1] === 0
        ? null
        : tippingOf((factor) => {
            const { lower, upper } = supposedAt(factor);
            if (lower === null || upper === null) return null;
            return lower > 0 ? 1 : upper < 0 ? -1 : 0;
          }),
  };
}

type Asked = Read<typeof differenceAfterLossOptions>;

interface Comparison {
  readonly lost: Pair<number>;
  readonly supposedAt: SupposedAt;
}

const inverse = (factor: number): number => (factor === 0 ? Number.POSITIVE_INFINITY : 1 / factor);

const unknown = (reason: Reason): DifferenceSupposed => ({
  difference: null,
  lower: null,
  upper: null,
  reason,
});

function asTheyAre(columns: LossInGroups, { time, level, cause }: Asked): Comparison {
  const sides = ([0, 1] as const).map((group) => {
    const rows = Int32Array.from(columns.times, (_, row) => row).filter(
      (row) => columns.groups[row] === group,
    );
    const own = rowsOf<CompetingEvents>(columns, { rows, names: competingEventsNames });
    return {
      cell: lossCellOf({ rows, prepared: preparedCause(own, { cause }) }, columns.lost),
      clusters: columns.clusters === undefined ? null : clusterIndex(own),
    };
  });
  const at = (group: 0 | 1, factor: number) =>
    shareSupposed(sides[group]!.cell, { time, level, factor, clusters: sides[group]!.clusters });
  return {
    lost: [lostBefore(sides[0]!.cell, time), lostBefore(sides[1]!.cell, time)],
    supposedAt: (factor) => {
      const [a, b] = [at(1, factor), at(0, inverse(factor))];
      if (a.returned === null || b.returned === null)
        return unknown((a.returned === null ? a : b).reason ?? "no-rows");
      const { estimate, lower, upper, reason } = shareDifference(
        { ...a, returned: a.returned },
        { ...b, returned: b.returned },
        { level },
      );
      return { difference: estimate, lower, upper, reason };
    },
  };
}

function likeForLike(
  columns: LossInGroups & { readonly strata: ArrayLike<number> },
  { time, level, horizon = time, smallest, cause }: Asked,
): Comparison {
  const { input, reason } = strataToUse(columns, { horizon, smallest, cause });
  if (input === null) return { lost: [0, 0], supposedAt: () => unknown(reason) };
  const cells = new Map<Cell, LossCell>(
    input.strata.flatMap((stratum) =>
      stratum.cells.map((cell): [Cell, LossCell] => [cell, lossCellOf(cell, columns.lost)]),
    ),
  );
  const lost = ({ strata }: Standardisable, group: 0 | 1) =>
    strata.reduce((sum, stratum) => sum + lostBefore(cells.get(stratum.cells[group])!, time), 0);
  return {
    lost: [lost(input, 0), lost(input, 1)],
    supposedAt: (factor) => {
      const { difference } = standardisedShareOf(input, {
        time,
        level,
        figureIn: (cell, group) =>
          lossFigure(cells.get(cell)!, { time, factor: group === 1 ? factor : inverse(factor) }),
      });
      const { difference: value, lower, upper, reason } = difference;
      return { difference: value, lower, upper, reason };
    },
  };
}
