import { rootBetween } from "../shared/root.js";
import { type LikelihoodAt, likelihoodAt, type VarianceRatios } from "./rater-likelihood.js";
import type { RaterSums } from "./rater-patterns.js";

/** Where the restricted likelihood is largest. */
export interface RaterSolution {
  readonly ratios: VarianceRatios;
  readonly at: LikelihoodAt;
  /** Evaluations of the likelihood. */
  readonly evaluations: number;
}

/**
 * Shares ratio / (1 + ratio) at which the sign of the slope is looked at before roots are sought: close at both ends, where maxima
 * hide. Beyond the last the residual is nothing beside the rest.
 */
const grid = [
  0,
  0.01,
  0.05,
  0.2,
  0.4,
  0.6,
  0.8,
  0.9,
  0.96,
  0.99,
  0.999,
  0.9999,
  1 - 1e-6,
  1 - 1e-8,
  1 - 1e-10,
];

const ratioOf = (share: number): number => share / (1 - share);

/**
 * The ratios with the largest restricted likelihood: for each ratio of the raters the best one of the subjects, and among those the best.
 *
 * In both steps every minimum of the deviance that the grid shows is refined as a root of the slope, and 0 counts where the deviance
 * rises from it; the lowest wins. Null where the deviance falls for ever: no residual is left.
 */
export function solveRatios(
  sums: RaterSums,
  options: { readonly model: "one-way" | "two-way" },
): RaterSolution | null {
  let evaluations = 0;
  const evaluate = (ratios: VarianceRatios): LikelihoodAt => {
    evaluations++;
    return likelihoodAt(sums, ratios);
  };
  const bestSubjects = (raters: number): Found | null =>
    lowestMinimum((share) => {
      const ratios = { subjects: ratioOf(share), raters };
      const at = evaluate(ratios);
      return { ratios, at, slope: at.slopes.subjects };
    });
  const found =
    options.model === "one-way"
      ? bestSubjects(0)
      : lowestMinimum((share) => {
          const best = bestSubjects(ratioOf(share));
          // the best ratio of the subjects has no slope of its own, so that of the raters is the whole one
          return best === null ? null : { ...best, slope: best.at.slopes.raters };
        });
  return found === null ? null : { ratios: found.ratios, at: found.at, evaluations };
}

interface Found {
  readonly ratios: VarianceRatios;
  readonly at: LikelihoodAt;
  readonly slope: number;
}

function lowestMinimum(profile: (share: number) => Found | null): Found | null {
  let best: Found | null = null;
  const consider = (found: Found | null): void => {
    if (found !== null && (best === null || found.at.deviance < best.at.deviance)) best = found;
  };
  const slopeAt = (share: number): number => profile(share)?.slope ?? Number.NaN;
  const slopes = grid.map((share) => {
    const found = profile(share);
    if (share === 0 && found !== null && found.slope >= 0) consider(found);
    return found?.slope ?? Number.NaN;
  });
  for (let i = 1; i < grid.length; i++)
    if (slopes[i - 1]! < 0 && slopes[i]! >= 0)
      consider(profile(rootBetween(slopeAt, [grid[i - 1]!, grid[i]!])));
  return best;
}
