import { clusterIndex } from "../../shared/clusters.js";
import { normalCritical } from "../../shared/distributions.js";
import type { Reason } from "../../shared/figure.js";
import {
  checkColumnNames,
  confidenceLevel,
  list,
  needed,
  number,
  type OptionsOf,
  readOptions,
  withDefault,
} from "../../shared/options.js";
import { limitsOfShare } from "../curve-intervals.js";
import { causeOption } from "../incidence-curve.js";
import { preparedCause } from "../prepared-event.js";
import { squaresWithin } from "../restricted-mean.js";
import { type SharePoint, shareInterval } from "../small-sample.js";
import { checkFactors } from "./factors.js";
import { checkLoss, type LossEvents, lossEventsNames } from "./loss-columns.js";
import { type LossCell, lossCellOf, lossFigure } from "./loss-course.js";
import { type Tipping, tippingOf } from "./tipping.js";

export const shareAfterLossOptions = {
  /** Time by which the share is wanted, 0 or more. */
  time: needed(number("not negative")),
  /** Factors by which the hazard of those lost is multiplied, each 0 or more. Default none. */
  factors: withDefault(list<ArrayLike<number>>(), []),
  /** The share of which it is asked by what factor it is crossed. Default 0.5. */
  line: number("open share", 0.5),
  /** Default 0.95. */
  level: confidenceLevel,
  ...causeOption,
};

export interface ShareAfterLossOptions extends OptionsOf<typeof shareAfterLossOptions> {}

/** A share under one supposition of those lost. */
export interface ShareSupposed extends Pick<SharePoint, "standardError" | "atRisk" | "n" | "units"> {
  readonly returned: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Competing ends, and whoever else is known, or supposed, to be without the event for good. */
  readonly cumulativeCompeting: number;
  /** Why there is no share, or no limits. */
  readonly reason: Reason | null;
}

/** The share where the hazard of those lost is multiplied by a factor. */
export interface ShareAtFactor extends ShareSupposed {
  readonly factor: number;
}

export interface ShareAfterLoss {
  readonly time: number;
  readonly level: number;
  readonly n: number;
  /** Lost before the time. */
  readonly lost: number;
  /** None of the lost has the event by the time; all of them have it. */
  readonly none: ShareSupposed;
  readonly all: ShareSupposed;
  /** One a factor, in the order asked. */
  readonly points: readonly ShareAtFactor[];
  /** By what factor the share comes to the other side of the line; null where nobody was lost, or no share is known. */
  readonly crossing: Tipping | null;
}

/**
 * The share with an event by a time, if those lost to follow-up were unlike those followed: bounds, and between them the hazard of the event
 * multiplied by a factor from the loss on.
 *
 * The share is that of a walk through four states: followed, lost, with the event, ended otherwise. Chances of those followed are the shares of those
 * at risk at each time; whoever was lost has the event with the chance 1 - (1 - h)^factor where those followed have it with the chance h, competing
 * ends among the rest as they have them. Follow-up that ended because the data were closed is taken as independent, whatever the factor. At 1 this is the
 * cumulative incidence of incidenceCurve; at 0 that with loss as a competing end, the share if none of the lost has the event; at Infinity that with
 * loss counted as the event. Nothing is drawn at random: it is what imputing each lost row many times over comes to, so the same data give the same digits.
 * Where all at risk have the event at a time, so have the lost, however small a factor above 0.
 *
 * Variance: delta method with the chances of a time multinomial and losses binomial; with clusters the infinitesimal jackknife summed within them. The factor
 * is taken as known. Limits on the log-log scale of the share without the event, as for the curve; score limits where nobody or everybody has it.
 *
 * @param columns lost: 1 where follow-up was broken off, never where an event came
 * @returns `beyond-follow-up` where nobody was followed to the time, though the bounds may be known; `no-rows` for no rows
 * @throws ArgumentError naming the column and index of a value at fault, or the option
 * @source Jackson, White, Seaman, Evans, Baisley & Carpenter 2014, Stat Med 33:4681; walk through states: Aalen & Johansen 1978, Scand J Stat 5:141
 * @example
 * shareAfterLoss({ times: [2, 3, 5, 8], causes: [1, 0, 1, 0], lost: [0, 1, 0, 0] }, { time: 6 }).none.returned // => 0.5
 */
export function shareAfterLoss(columns: LossEvents, options: ShareAfterLossOptions): ShareAfterLoss {
  checkColumnNames(lossEventsNames, { columns });
  const { time, factors, line, level, cause } = readOptions(shareAfterLossOptions, options);
  checkFactors(factors);
  checkLoss(columns);
  const { lost: isLost, ...rest } = columns;
  const prepared = preparedCause(rest, { cause });
  const rows = Int32Array.from({ length: prepared.riskSets.n }, (_, row) => row);
  const cell = lossCellOf({ rows, prepared }, isLost);
  const lost = lostBefore(cell, time);
  const asked = { time, level, clusters: columns.clusters === undefined ? null : clusterIndex(columns) };
  const shareAt = (factor: number) => shareSupposed(cell, { ...asked, factor });
  return {
    time,
    level,
    n: prepared.riskSets.n,
    lost,
    none: shareAt(0),
    all: shareAt(Number.POSITIVE_INFINITY),
    points: Array.from(factors, (factor) => ({ factor, ...shareAt(factor) })),
    crossing:
      lost === 0
        ? null
        : tippingOf((factor) => {
            const { isKnown, value } = lossFigure(cell, { time, factor });
            return isKnown ? (Math.sign(value - line) as -1 | 0 | 1) : null;
          }),
  };
}

/** How many rows of a group were lost before a time. */
export function lostBefore({ lost, prepared }: LossCell, time: number): number {
  const { times } = prepared.riskSets;
  let sum = 0;
  for (let i = 0; i < times.length && times[i]! < time; i++) sum += lost[i]!;
  return sum;
}

interface Asked {
  readonly time: number;
  readonly factor: number;
  readonly level: number;
  /** Null where rows are independent. */
  readonly clusters: ReturnType<typeof clusterIndex> | null;
}

/** A share with its limits. */
export function shareSupposed(cell: LossCell, { time, factor, level, clusters }: Asked): ShareSupposed {
  const { value, variance, influences, atRisk, settled, isKnown } = lossFigure(cell, { time, factor });
  const n = cell.prepared.riskSets.n;
  const common = { atRisk, n, units: clusters?.count ?? n, cumulativeCompeting: settled };
  if (!isKnown) {
    const reason = n === 0 ? "no-rows" : "beyond-follow-up";
    return { ...common, returned: null, standardError: null, lower: null, upper: null, reason };
  }
  const standardError = Math.sqrt(clusters === null ? variance : squaresWithin(clusters, influences()));
  const found = { ...common, returned: value, standardError };
  if (value === 0 || value === 1) {
    const { lower, upper, reason } = shareInterval(found, { level });
    return { ...found, lower, upper, reason };
  }
  const notYet = 1 - value;
  const limits = limitsOfShare(
    { share: notYet, errorOfLog: standardError / notYet },
    { scale: "log-log", z: normalCritical(level) },
  );
  if (limits === null) return { ...found, lower: null, upper: null, reason: "no-variance" };
  return { ...found, lower: 1 - limits[1], upper: 1 - limits[0], reason: null };
}
