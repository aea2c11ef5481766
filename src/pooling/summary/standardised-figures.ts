import { causeOf } from "../../cohort/columns.js";
import { areaFunctional, shareFunctional } from "../../statistics/survival/functionals.js";
import { atRiskAt } from "../../statistics/survival/risk-sets.js";
import { sizedShare } from "../../statistics/survival/small-sample.js";
import type { Cell } from "../../statistics/survival/standardised-cells.js";
import { differenceInfluences, type Standardisable } from "../../statistics/survival/standardised-sums.js";
import { strataToUse } from "../../statistics/survival/strata-to-use.js";
import type { StandardisedPair } from "../../study/standardised-pair.js";
import { varianceAtTheEdge } from "../site-estimates/index.js";
import {
  type FigurePlace,
  forSmallSamples,
  type JointFigureSet,
  jointFigures,
  type MovedFigure,
  missingFigure,
} from "./figures.js";
import { type Asked, placesOf } from "./figures-by-days.js";

/** The difference of two groups like for like, at one mix of strata. */
export function standardisedDifferenceOf(pair: StandardisedPair, asked: Asked): JointFigureSet {
  const { curves, grouped } = pair;
  const places = placesOf(asked);
  const scaleOf = (measure: FigurePlace["measure"]) => (measure === "share_back" ? "share" : "days");
  const { input, reason } = strataToUse(grouped, {
    horizon: asked.horizonDay,
    smallest: asked.comparison.smallestGroup,
    cause: causeOf("milestone"),
  });
  if (input === null) {
    const figures = places.map((place) => missingFigure({ ...place, scale: scaleOf(place.measure) }, reason));
    return { figures, variance: figures.map(() => figures.map(() => null)) };
  }
  const sample = { units: pair.units, curves: 2 * input.strata.length };
  const moved = places.map((place): MovedFigure => {
    const isShare = place.measure === "share_back";
    const { day } = place;
    const own = differenceInfluences(input, (prepared) =>
      isShare ? shareFunctional(prepared, day) : areaFunctional(prepared, day),
    );
    const value = isShare
      ? (curves.shares?.find(({ time }) => time === day)?.difference.difference ?? null)
      : (curves.restrictedMean?.difference.difference ?? null);
    const edge = isShare ? edgeOf(input, day) : 0;
    return {
      ...place,
      scale: scaleOf(place.measure),
      value,
      reason: curves.reason,
      influences: isShare ? own.map((each) => -each) : own,
      scaled: (variance) => {
        const found = forSmallSamples(variance + edge, sample);
        return value === null || found === null ? null : { estimate: value, variance: found };
      },
    };
  });
  return jointFigures(moved, input.clusters);
}

/** What is added to the variance for strata of a group in which nobody, or everybody, is back. */
const edgeOf = ({ strata }: Standardisable, day: number): number =>
  strata.reduce(
    (sum, { weight, cells }) =>
      sum + weight * weight * cells.reduce((both, cell) => both + edgeOfCell(cell, day), 0),
    0,
  );

function edgeOfCell({ prepared }: Cell, day: number): number {
  const { riskSets, own, competing } = prepared;
  const returned = Math.min(1, Math.max(0, 1 - shareFunctional(prepared, day).value));
  const until = riskSets.times.findIndex((time) => time > day);
  const settled = Array.from(competing ?? [])
    .slice(0, until < 0 ? undefined : until)
    .reduce((sum, n) => sum + n, 0);
  const atRisk = atRiskAt({ ...riskSets, events: own, competing }, day);
  return varianceAtTheEdge(
    sizedShare({ returned, standardError: null, atRisk, cumulativeCompeting: settled, n: riskSets.total }),
  );
}
