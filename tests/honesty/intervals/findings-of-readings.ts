import {
  accuracyOfCounts,
  clusteredAccuracy,
  clusteredKappa,
  kappa,
} from "../../../src/statistics/agreement/index.js";
import { normalQuantile, seededGenerator } from "../../../src/statistics/index.js";
import type { Finding } from "../tally.js";
import { printed } from "./read-off.js";
import { severalFingersOf } from "./several-fingers.js";

const trueShare = 0.8;
const correlation = 0.6;
/** Two raters who each call half of the fingers affected and of whom kappa is this. */
const trueKappa = 0.5;

/** Correlation of two normal numbers whose signs agree as kappa says: 1 / 2 + asin(r) / pi = (1 + kappa) / 2. */
const rated = Math.sin((Math.PI * trueKappa) / 2);

/** Sensitivity, specificity and kappa, with persons as clusters and as if fingers were independent. */
export function readingFindings(at: {
  readonly n: number;
  readonly seed: number;
  readonly stream: number;
}): readonly Finding[] {
  const generator = seededGenerator(at.seed, at.stream);
  const { persons: clusters, alike } = severalFingersOf(at.n, generator);
  const states = clusters.map(() => (generator.uniform() < 0.6 ? 1 : 0));
  const away = normalQuantile(trueShare);
  // affected above 0 in 8 of 10, healthy below 0 in 8 of 10
  const values = alike(correlation).map((z, row) => z + (states[row] === 1 ? away : -away));
  const accuracy = clusteredAccuracy({ values, states, clusters }, { threshold: 0 });
  const alone = accuracyOfCounts(accuracy.counts);
  const common = alike(correlation);
  const rater = () => {
    const own = alike(correlation);
    return common.map((z, row) => Math.sqrt(rated) * z + Math.sqrt(1 - rated) * own[row]! > 0).map(Number);
  };
  const ratings = { first: rater(), second: rater() };
  const categories = ["no", "yes"];
  const found = (
    name: string,
    limits: { lower: number | null; upper: number | null },
    value: number | null,
    truth: number,
  ) => printed(name, { value, lower: limits.lower, upper: limits.upper }, truth);
  const agreed = clusteredKappa({ ...ratings, clusters }, { categories });
  const asAlone = kappa(ratings, { categories });
  return [
    found("sensitivity", accuracy.sensitivity, accuracy.sensitivity.estimate, trueShare),
    found(
      "sensitivity; fingers as independent instead",
      alone.sensitivity,
      alone.sensitivity.estimate,
      trueShare,
    ),
    found("specificity", accuracy.specificity, accuracy.specificity.estimate, trueShare),
    found("kappa", agreed, agreed.kappa, trueKappa),
    found("kappa; fingers as independent instead", asAlone, asAlone.kappa, trueKappa),
  ];
}
