import type { LimitFit } from "./limit-fit.js";
import type { LogisticTerm } from "./logistic-types.js";
import { coordinatesAlong } from "./objective.js";
import { quadraticProduct } from "./products.js";
import { type Fate, fateOf } from "./separation.js";
import { collinearTerm, type ProfileSetting, termOf } from "./terms.js";

type Matrix = readonly (readonly (number | null)[])[];

/** Inverse information over the variables of a maximum, and the sandwich: null with too few clusters, undefined without any. */
export interface Covariances {
  readonly model: Float64Array;
  readonly robust?: { readonly covariance: Float64Array; readonly clusters: number } | null;
}

/** The coefficients that are asked for, each a linear function on the variables; null for a collinear one. */
export interface AskedCoefficients {
  readonly names: readonly string[];
  readonly functionals: readonly (Float64Array | null)[];
  /** Spread of each one's column. */
  readonly spreads: readonly number[];
}

export interface Estimates {
  readonly asked: AskedCoefficients;
  readonly fates: readonly Fate[];
  readonly coefficients: readonly (number | null)[];
  /** Robust where there are clusters. */
  readonly standardErrors: readonly (number | null)[];
  readonly covariance: Matrix;
  readonly robustCovariance: Matrix | null;
}

/** Coefficients and their covariance in the caller's units, null where the limit or the design determines none. */
export function estimatesOf(
  fit: LimitFit,
  of: { readonly asked: AskedCoefficients; readonly covariances: Covariances },
): Estimates {
  const { asked, covariances } = of;
  const fates = asked.functionals.map((functional) =>
    functional === null ? { finite: false, limit: null } : fateOf(functional, fit.recession),
  );
  const finite = fates.flatMap((fate, k) => (fate.finite ? [k] : []));
  const place = new Map(finite.map((k, i) => [k, i]));
  const onFit = finite.map((k) => {
    const functional = asked.functionals[k]!;
    return fit.span === null ? functional : coordinatesAlong(fit.span, functional);
  });
  const byName = (matrix: Float64Array | null): (number | null)[][] => {
    const values = matrix && quadraticProduct(onFit, matrix);
    return asked.names.map((_, i) =>
      asked.names.map((_, j) => {
        const [a, b] = [place.get(i), place.get(j)];
        return a === undefined || b === undefined || values === null ? null : values[a * finite.length + b]!;
      }),
    );
  };
  const covariance = byName(covariances.model);
  const robustCovariance =
    covariances.robust === undefined ? null : byName(covariances.robust?.covariance ?? null);
  const found = coordinatesAlong(onFit, fit.climb.point);
  return {
    asked,
    fates,
    coefficients: asked.names.map((_, k) => found[place.get(k) ?? -1] ?? null),
    standardErrors: (robustCovariance ?? covariance).map((row, k) =>
      row[k] == null ? null : Math.sqrt(row[k]),
    ),
    covariance,
    robustCovariance,
  };
}

/** One term a coefficient, with intervals and tests of the kind asked for. */
export const termsOf = (
  { asked, fates, coefficients, standardErrors }: Estimates,
  settings: { readonly interval: LogisticTerm["interval"]; readonly setting: ProfileSetting },
): LogisticTerm[] =>
  asked.names.map((name, k) => {
    const functional = asked.functionals[k];
    if (functional == null) return collinearTerm(name, settings.interval);
    return termOf(
      {
        name,
        functional,
        fate: fates[k]!,
        coefficient: coefficients[k] as number | null,
        standardError: standardErrors[k] as number | null,
        spread: asked.spreads[k]!,
      },
      settings,
    );
  });
