import { termsOfGroups } from "../../schema/covariates.js";
import { adjustersOf, type StratumAdjuster } from "../../study/strata.js";
import { PoolingFileError } from "../pooling-file-error.js";
import type { FitModel, PointFile } from "./round-files.js";

/** One parameter that all sites share, and what a record has of it. */
export type SharedTerm =
  | { readonly kind: "group"; readonly group: string }
  | { readonly kind: "number"; readonly field: ReturnType<typeof adjustersOf>["numbers"][number] }
  | { readonly kind: "level"; readonly field: StratumAdjuster; readonly level: string };

/**
 * The parameters that sites share: each group beside the reference, each number held equal; where there are no strata with a baseline of their
 * own, each level of the other fields too, the last that anybody has being the one beside which the others stand.
 */
export function termsOf(model: FitModel): readonly SharedTerm[] {
  const { compare } = model.asked;
  const { strata, numbers } = adjustersOf(compare.adjust_for);
  return [
    ...compare.groups
      .filter((group) => group !== compare.reference)
      .map((group): SharedTerm => ({ kind: "group", group })),
    ...numbers.map((field): SharedTerm => ({ kind: "number", field })),
    ...(model.fit === "hazards" ? [] : strata.flatMap(levelsOf)),
  ];
}

/** @throws PoolingFileError for a field whose words the data name, as sites: no list of them is the same everywhere */
function levelsOf(field: StratumAdjuster): SharedTerm[] {
  const terms = termsOfGroups(field);
  if (terms === null)
    throw new PoolingFileError({
      file: "the study file",
      place: "compare.adjust_for",
      problem: `"${field}" has no closed list of terms, so sites cannot share its parameters.`,
      correction: `Leave "${field}" out of compare.adjust_for; each site has an intercept of its own.`,
    });
  return [...terms].reverse().map((level) => ({ kind: "level", field, level }));
}

/** A parameter as people read it. */
export function nameOf(term: SharedTerm, { asked }: FitModel): string {
  if (term.kind === "group") return `${term.group} beside ${asked.compare.reference}`;
  return term.kind === "number" ? `one more of ${term.field}` : `${term.field} ${term.level}`;
}

export const scaleName = "1 / scale";

/** Names of the shared parameters, in order. */
export const parameterNames = (model: FitModel): string[] => [
  ...termsOf(model).map((term) => nameOf(term, model)),
  ...(model.fit === "accelerated" ? [scaleName] : []),
];

/** Where a fit begins: no difference between anybody; times about 13 weeks, spread as by a constant rate. */
export function startOf(model: FitModel): { readonly shared: number[]; readonly intercept: number | null } {
  const terms = termsOf(model).map(() => 0);
  return model.fit === "hazards"
    ? { shared: terms, intercept: null }
    : { shared: [...terms, 1], intercept: Math.log(91) };
}

/** Numbers that a site has not sent before, in its answer to a point: a log-likelihood, a score, and the half of each symmetric matrix. */
export function numbersAskedBy({ model, shared, asks, maximum }: PointFile): number {
  const half = (size: number): number => (size * (size + 1)) / 2;
  // the point of the deletions is that of the squares, and so are its sums
  if (asks === "deletions") return half(maximum?.free.length ?? 0);
  const size = shared.length + (model.fit === "accelerated" ? 1 : 0);
  return 1 + size + half(size) + (asks === "squares" ? half(size) : 0);
}

/** Rounds after which a fit that has not come to its maximum is given up, and no site answers any more. */
export const mostRounds = 40;
