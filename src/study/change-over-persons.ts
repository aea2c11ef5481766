import { type LinearFit, linearRegression } from "../statistics/index.js";
import { estimateOf } from "./estimates.js";
import type { Estimate } from "./results-parts.js";

/** Codes of the persons of some rows; undefined where everybody has one row, so that rows are independent. */
export function personCodes(rows: readonly { readonly person: string }[]): Int32Array | undefined {
  const codes = new Map<string, number>();
  for (const { person } of rows) if (!codes.has(person)) codes.set(person, codes.size);
  return codes.size < rows.length ? Int32Array.from(rows, ({ person }) => codes.get(person)!) : undefined;
}

/** A mean, or a difference of means, with the interval that holds for few persons. */
export interface OverPersons {
  readonly estimate: Estimate;
  readonly standard_error: number | null;
  readonly p: number | null;
}

/** Mean of some values, of which several are of one person. */
export function meanOverPersons(
  values: readonly number[],
  options: { readonly clusters: Int32Array; readonly level: number },
): OverPersons {
  const fit = linearRegression(
    { response: values, covariates: { names: [], columns: [] }, clusters: options.clusters },
    { level: options.level, variance: "reduced-bias" },
  );
  return termOf(fit, 0);
}

/** Mean of those with `groups` 1 less the mean of those with 0, some persons having several of them. */
export function differenceOverPersons(
  values: readonly number[],
  options: { readonly groups: readonly number[]; readonly clusters: Int32Array; readonly level: number },
): OverPersons {
  const fit = linearRegression(
    {
      response: values,
      covariates: { names: ["group"], columns: [options.groups] },
      clusters: options.clusters,
    },
    { level: options.level, variance: "reduced-bias" },
  );
  return termOf(fit, 1);
}

function termOf(fit: LinearFit, at: number): OverPersons {
  return {
    estimate: estimateOf({
      value: fit.coefficients[at] ?? null,
      lower: fit.lower[at] ?? null,
      upper: fit.upper[at] ?? null,
      reason: fit.reasons[at] ?? fit.reason,
    }),
    standard_error: fit.standardErrors[at] ?? null,
    p: fit.p[at] ?? null,
  };
}
