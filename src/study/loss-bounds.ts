import {
  type DifferenceSupposed,
  differenceAfterLoss,
  type LossInGroups,
  type ShareSupposed,
  shareAfterLoss,
  widestFactor,
} from "../statistics/survival/after-loss/index.js";
import { countedFor } from "./columns.js";
import { estimateOf } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import { type Group, type Grouping, hasSpans } from "./groups.js";
import {
  type DifferenceAfterLossRow,
  factors,
  isLostBefore,
  type LossAsked,
  line,
  type ShareAfterLossRow,
  tippingTold,
} from "./loss-asked.js";
import { type PairRows, recordedRows } from "./pair-rows.js";
import type { Pair } from "./pairs.js";
import { lossInSpans } from "./spans/after-loss.js";
import type { Specification } from "./specification.js";

type ShareRow = NonNullable<ExactResults["loss_bounds"]>["shares"][number];

type Asked = Omit<LossAsked, "day"> & Pick<Specification, "landmarks">;

/**
 * The share back at the main landmark in each group, and each main difference, if those lost before it were unlike those followed: the worst and the best
 * case, and by what factor their hazard of return would have to differ for the answer to change. Null where the study reads no share at its main landmark.
 */
export function lossBoundsOf(
  {
    all,
    compared,
    pairs,
  }: { readonly all: Grouping; readonly compared: Grouping; readonly pairs: readonly Pair[] },
  asked: Asked,
): ExactResults["loss_bounds"] {
  const main = asked.landmarks.find(({ isMain }) => isMain);
  if (main === undefined) return null;
  const { week, day } = main;
  const onDay = { ...asked, day };
  const inSpans = lossInSpans(onDay);
  const sharesOf = ({ groups, modelled }: Grouping) =>
    groups.map((group, place) =>
      modelled !== null && hasSpans(group)
        ? inSpans.shareOf({ modelled, group, place })
        : shareOf(group, onDay),
    );
  return {
    week,
    day,
    line,
    widest_factor: widestFactor,
    shares: [
      ...sharesOf(all).map((share): ShareRow => ({ family: "all", ...share })),
      ...sharesOf(compared).map((share): ShareRow => ({ family: "compared", ...share })),
    ],
    differences: pairs.flatMap((pair) =>
      pair.spans === null ? differencesOf(pair, onDay) : inSpans.differencesOf(pair, pair.spans),
    ),
  };
}

function shareOf({ label, records, columns }: Group, asked: LossAsked): ShareAfterLossRow {
  const { day: time, level, shareBack } = asked;
  const found = shareAfterLoss(
    { ...countedFor(columns, shareBack), lost: records.map((record) => Number(isLostBefore(asked)(record))) },
    { time, factors: [...factors], line, level },
  );
  const points = found.points.map(({ factor, ...share }) => ({ factor, figure: shareFigure(share) }));
  return {
    label,
    n: records.length,
    lost: found.lost,
    none_back: shareFigure(found.none),
    as_followed: asFollowed(points),
    all_back: shareFigure(found.all),
    points,
    line: tippingTold(found.crossing),
  };
}

const shareFigure = ({ returned: value, ...limits }: ShareSupposed) => estimateOf({ value, ...limits });
const differenceFigure = ({ difference: value, ...limits }: DifferenceSupposed) =>
  estimateOf({ value, ...limits });
const asFollowed = <Figure>(
  points: readonly { readonly factor: number; readonly figure: Figure }[],
): Figure => points.find(({ factor }) => factor === 1)!.figure;

/** A difference as the groups are, and like for like where something is held equal. */
function differencesOf(pair: Pair, asked: LossAsked): DifferenceAfterLossRow[] {
  const { strata: fields, smallestGroup: smallest } = asked.comparison;
  const crude = differenceIn(pair, { rows: pair, held: [], options: {} }, asked);
  if (pair.standardised === null) return [crude];
  const { rows } = recordedRows(pair, { strata: fields, numbers: [] });
  const options = { horizon: asked.horizonDay, smallest };
  return [crude, differenceIn(pair, { rows, held: fields, options }, asked)];
}

interface Held {
  readonly rows: PairRows;
  /** Fields held equal. */
  readonly held: readonly string[];
  readonly options: { readonly horizon?: number; readonly smallest?: number };
}

function differenceIn(
  { compared, reference }: Pair,
  { rows, held, options }: Held,
  asked: LossAsked,
): DifferenceAfterLossRow {
  const { day: time, level, shareBack } = asked;
  const columns: LossInGroups = {
    ...countedFor(rows.columns, shareBack),
    lost: rows.records.map((record) => Number(isLostBefore(asked)(record))),
    groups: rows.isCompared,
  };
  const found = differenceAfterLoss(
    held.length === 0 ? columns : { ...columns, strata: rows.strata!.codes },
    { ...options, time, factors: [...factors], level },
  );
  const points = found.points.map(({ factor, ...difference }) => ({
    factor,
    figure: differenceFigure(difference),
  }));
  return {
    compared: compared.label,
    reference: reference.label,
    adjusted_for: [...held],
    lost: { compared: found.lost[1], reference: found.lost[0] },
    lowest: differenceFigure(found.lowest),
    as_followed: asFollowed(points),
    highest: differenceFigure(found.highest),
    points,
    tipping: tippingTold(found.tipping),
  };
}
