import { ArgumentError, checkColumn, checkSameLength } from "../../../shared/arguments.js";
import { indexOfCodes } from "../../../shared/codes.js";
import type { Reason } from "../../../shared/figure.js";
import { tippingOf } from "../../after-loss/tipping.js";
import type { Visits } from "../columns.js";
import { patternsOf } from "../patterns.js";
import {
  boundedFigure,
  missing,
  type RecoverableFigure,
  recoveredDifference,
  type VisitFigure,
} from "../visit-figures.js";
import { reachOf, spreadOf, type VisitModels } from "../visit-models.js";
import { variancesOf } from "../visit-variances.js";
import { groupAfterLoss, type SharesAt, type SharesAtFactors } from "./group-after-loss.js";
import type {
  DifferenceAfterVisits,
  LossBetweenVisits,
  ShareAfterVisits,
  Suppositions,
} from "./loss-types.js";

export interface LossUnder {
  /** Why there are no figures. */
  readonly reason: Reason | null;
  readonly shareOf: (group: number) => ShareAfterVisits;
  readonly differenceOf: (group: number, against: number) => DifferenceAfterVisits;
}

/** The same from models that were fitted, for the groups that are asked for. */
export function lossUnder(
  { prepared, lost, cells }: LossBetweenVisits & { readonly prepared: VisitModels },
  asked: Suppositions,
): LossUnder {
  const { visits, reason } = prepared;
  checkLost(lost, visits);
  if (cells !== undefined) {
    checkSameLength({ name: "cells", values: cells }, { name: "left", values: visits.left });
    checkColumn({ name: "cells", values: cells }, "code");
  }
  const { time } = asked;
  const cellOf = cells === undefined ? new Int32Array(visits.n) : indexOfCodes(cells).index;
  const { patterns, of: patternOf } = patternsOf(visits, cellOf);
  const found = new Map<number, GroupWithLoss>();
  const groupOf = (group: number): GroupWithLoss => {
    const place = visits.groups.indexOf(group);
    const own = found.get(place) ?? {
      group,
      place,
      lost: lostIn(visits, { place, lost, time }),
      sharesAt: groupAfterLoss({ prepared, patterns, cells: cellOf, lost, group: place, time }),
    };
    found.set(place, own);
    return own;
  };
  const scene = { prepared, patternOf };
  return {
    reason,
    shareOf: (group) => shareOf(groupOf(group), { ...scene, ...asked }),
    differenceOf: (group, against) =>
      differenceOf([groupOf(group), groupOf(against)], { ...scene, ...asked }),
  };
}

function checkLost(lost: ArrayLike<number>, { left, ends }: Visits): void {
  const named = { name: "lost", values: lost };
  checkSameLength(named, { name: "left", values: left });
  checkColumn(named, "zero or one");
  for (let i = 0; i < lost.length; i++)
    if (lost[i] === 1 && ends[i] !== 0)
      throw new ArgumentError({
        argument: "lost",
        index: i,
        expected: `0, since an end was seen in row ${i}`,
        found: 1,
      });
}

interface GroupWithLoss {
  readonly group: number;
  readonly place: number;
  readonly lost: number;
  readonly sharesAt: SharesAt;
}

function lostIn(
  { left, group, n }: Visits,
  { place, lost, time }: { readonly place: number; readonly lost: ArrayLike<number>; readonly time: number },
): number {
  let count = 0;
  for (let row = 0; row < n; row++)
    count += Number(group[row] === place && lost[row] === 1 && left[row]! < time);
  return count;
}

interface Scene extends Suppositions {
  readonly prepared: VisitModels;
  readonly patternOf: Int32Array;
}

function shareOf({ group, place, lost, sharesAt }: GroupWithLoss, scene: Scene): ShareAfterVisits {
  const { prepared, factors, line } = scene;
  const { visits } = prepared;
  const all = [0, Number.POSITIVE_INFINITY, ...factors];
  const [none, whole, ...points] = figuresAt({ place, at: sharesAt(all) }, scene).map(({ figure }) => figure);
  const isKnown = none!.reason !== "beyond-follow-up";
  return {
    group,
    n: visits.group.reduce((sum, own) => sum + Number(own === place), 0),
    lost,
    none: none!,
    all: whole!,
    points: points.map((figure, o) => ({ factor: factors[o]!, ...figure })),
    crossing:
      lost === 0 || !isKnown
        ? null
        : tippingOf((factor) => Math.sign(sharesAt([factor]).of.outputs[0]! - line) as -1 | 0 | 1),
  };
}

/** The share of a group at each factor, with its limits. */
function figuresAt(
  { place, at }: { readonly place: number; readonly at: SharesAtFactors },
  { prepared, patternOf, time }: Scene,
): RecoverableFigure[] {
  const { visits } = prepared;
  if (time > reachOf(visits, place))
    return Array.from(at.of.outputs, () => ({ figure: missing("beyond-follow-up"), limitsAt: null }));
  const spread = spreadOf(prepared);
  const variance = variancesOf([{ sign: 1, ...at }], { visits, patternOf });
  return Array.from(at.of.outputs, (share, o) => boundedFigure(share, { ...spread(variance[o]!), top: 1 }));
}

function differenceOf(
  [own, other]: readonly [GroupWithLoss, GroupWithLoss],
  scene: Scene,
): DifferenceAfterVisits {
  const { prepared, patternOf, factors } = scene;
  const { visits } = prepared;
  const spread = spreadOf(prepared);
  const differencesAt = (wanted: readonly number[]): VisitFigure[] => {
    const [a, b] = [own.sharesAt(wanted), other.sharesAt(wanted.map(inverse))];
    const variance = variancesOf(
      [
        { sign: 1, ...a },
        { sign: -1, ...b },
      ],
      { visits, patternOf },
    );
    const [figures, others] = [
      figuresAt({ place: own.place, at: a }, scene),
      figuresAt({ place: other.place, at: b }, scene),
    ];
    return figures.map((figure, o) => {
      const { p: _, ...difference } = recoveredDifference([figure, others[o]!], spread(variance[o]!));
      return difference;
    });
  };
  const [lowest, highest, ...points] = differencesAt([0, Number.POSITIVE_INFINITY, ...factors]);
  return {
    group: own.group,
    against: other.group,
    lost: { group: own.lost, against: other.lost },
    lowest: lowest!,
    highest: highest!,
    points: points.map((figure, o) => ({ factor: factors[o]!, ...figure })),
    tipping:
      own.lost + other.lost === 0
        ? null
        : tippingOf((factor) => {
            const { lower, upper } = differencesAt([factor])[0]!;
            if (lower === null || upper === null) return null;
            return lower > 0 ? 1 : upper < 0 ? -1 : 0;
          }),
  };
}

const inverse = (factor: number): number => (factor === 0 ? Number.POSITIVE_INFINITY : 1 / factor);
