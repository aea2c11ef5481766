import { type Convention, conventionsInWords } from "./conventions.js";
import { toleranceOf, type Verdict } from "./judge.js";

export interface Run {
  /** The reference programs and their versions. */
  readonly version: string;
  readonly seed: number;
  readonly sets: number;
}

const countOf = (verdicts: readonly Verdict[], outcome: Verdict["outcome"]): number =>
  verdicts.filter((verdict) => verdict.outcome === outcome).length;

function methodRow(method: string, verdicts: readonly Verdict[]): string {
  const own = verdicts.filter((verdict) => verdict.method === method);
  const { worst, set } = own.reduce((most, next) =>
    next.worst.difference > most.worst.difference ? next : most,
  );
  const figures = own.reduce((sum, { compared }) => sum + compared, 0);
  const where = worst.difference === 0 ? "within the absolute tolerance" : `${worst.figure}, set ${set}`;
  const cells = [
    method,
    own.length,
    countOf(own, "passed"),
    countOf(own, "failed"),
    countOf(own, "not asked"),
    figures,
    toleranceOf(method).relative.toExponential(0),
    worst.difference.toExponential(1),
    where,
  ];
  return `| ${cells.join(" | ")} |`;
}

function conventionRow(convention: Convention, verdicts: readonly Verdict[]): string {
  const times = verdicts.flatMap(({ conventions }) => conventions).filter((one) => one === convention).length;
  return `| ${convention} | ${times} | ${conventionsInWords[convention]} |`;
}

/** The outcome of a run as a page: agreement by method, and where the programs differ on purpose. */
export function summaryOf(verdicts: readonly Verdict[], { version, seed, sets }: Run): string {
  const methods = [...new Set(verdicts.map(({ method }) => method))];
  return `# Our functions against ${version}

${sets} random data sets, seed ${seed}: ties, weights, strata, late entry, start-stop rows, clusters, collinear and constant covariates, likelihoods
without a maximum, groups of nobody, all censored, from 2 subjects up. A check is one method on one data set.

| method | checks | passed | failed | reference stopped | figures compared | relative tolerance | worst relative difference | where |
| --- | --- | --- | --- | --- | --- | --- | --- | --- |
${methods.map((method) => methodRow(method, verdicts)).join("\n")}

Below an absolute difference of 1e-13 (hazards 1e-8) two figures count as equal. "Reference stopped": it ended with an error, as it does with
one group, with one value, or with a singular matrix; ours gives a result with a reason there, which other tests hold.

## Where they differ on purpose

| convention | figures | what it is |
| --- | --- | --- |
${(Object.keys(conventionsInWords) as Convention[]).map((one) => conventionRow(one, verdicts)).join("\n")}

Not compared: limits of a quantile where the curve's limit rises again (late entry, clusters). Ours is the first time at which it is low enough; the
reference sorts the values of the limit, which supposes that they fall. Quantiles of a curve that falls to 0 while others come
later: with fractional weights the reference is left with a share of 1e-15 there, and steps on it. Robust Wald tests of fewer than 12 events, whose
matrix is nearly singular. The log-rank test with late entry is compared with the score test of the discrete likelihood, where that has fewer
than 10,000 subsets to go through.
`;
}
