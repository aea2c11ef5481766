import type { Reason } from "../../shared/figure.js";
import type { AcceleratedColumns } from "../accelerated/accelerated-columns.js";
import {
  compared,
  inOrderOfAic,
  type LawInComparison,
  reasonOf,
} from "../accelerated/accelerated-comparison.js";
import type { AcceleratedFit } from "../accelerated/accelerated-fit.js";
import type { TimeLaw } from "../accelerated/error-laws.js";
import type { Visits } from "./columns.js";

/**
 * How an end's model is made: `together`: one law and spread, groups and covariates as coefficients; `by-group`: each group a model of its own
 * with the covariates; `groups-alone`: each group a model of its own without covariates, where too few such ends were seen for coefficients.
 */
export type ModelForm = "together" | "by-group" | "groups-alone";

/** One fit and the groups that it speaks of. */
export interface Piece {
  /** Places of the groups. */
  readonly groups: readonly number[];
  readonly fit: AcceleratedFit;
  /** Of each row of the data on the parameters, flat; 0 for rows of other groups. */
  readonly influences: () => Float64Array;
  /** Value of each coefficient for a group and values of the covariates, after a 1 for the intercept. */
  readonly design: (group: number, covariates: readonly number[]) => number[];
}

/** The time to one end as if no other came. */
export interface EndModel {
  readonly end: number;
  readonly form: ModelForm;
  readonly law: TimeLaw | null;
  /** Laws compared, in order of AIC; of a model by group those of all groups together are in `aic` only. */
  readonly compared: readonly LawInComparison[];
  readonly aic: number | null;
  /** None speaks of a group in which this end was never seen: it does not come there. */
  readonly pieces: readonly Piece[];
  readonly reason: Reason | null;
}

export interface EndOptions {
  readonly laws: readonly TimeLaw[];
  readonly level: number;
  readonly end: number;
  /** Where each row stops counting for this end: the row's own interval, or the time at which another end came. */
  readonly left: Float64Array;
  readonly right: Float64Array;
}

/** Fewer than this many ends a coefficient, and each group has a model of its own without covariates. */
const endsForCoefficient = 5;
/** Fewer than this many ends in a group, and its model has a constant rate (or, for the main end, nothing). */
const endsForSpread = 5;

/** Models by group must be better by more than this in AIC, since a common one is steadier. */
const clearlyBetter = 2;

const usable = ({ status, aic }: AcceleratedFit): boolean =>
  aic !== null && (status === "ok" || status === "collinear");

function columnsFor(
  visits: Visits,
  options: EndOptions,
  of: { rows: readonly number[]; dummies: boolean; adjusted: boolean },
): AcceleratedColumns {
  const { rows, dummies, adjusted } = of;
  const pick = (values: ArrayLike<number>): Float64Array => Float64Array.from(rows, (row) => values[row]!);
  const others = dummies ? visits.groups.map((_, i) => i).slice(1) : [];
  const own = adjusted ? visits.covariates : { names: [], columns: [] };
  return {
    left: pick(options.left),
    right: pick(options.right),
    weights: pick(visits.weights),
    covariates: {
      names: [...others.map((place) => `group ${visits.groups[place]}`), ...own.names],
      columns: [
        ...others.map((place) => Float64Array.from(rows, (row) => Number(visits.group[row] === place))),
        ...own.columns.map(pick),
      ],
    },
    ...(visits.entries && { entries: pick(visits.entries) }),
    ...(visits.clusters && { clusters: pick(visits.clusters) }),
  };
}

interface Candidate {
  readonly law: TimeLaw;
  readonly pieces: readonly Piece[];
  readonly aic: number;
  readonly compared: readonly LawInComparison[];
}

/** Fits of the laws to some rows, best first; influences spread over all rows. */
function fitted(
  visits: Visits,
  options: EndOptions & { rows: readonly number[]; groups: readonly number[]; adjusted: boolean },
) {
  const { rows, groups, adjusted, laws, level } = options;
  const dummies = groups.length > 1;
  const fits = inOrderOfAic(columnsFor(visits, options, { rows, dummies, adjusted }), { laws, level });
  const table = compared(fits.map(({ fit }) => fit));
  const pieces = fits.map(
    ({ fit, influences }): Piece => ({
      groups,
      fit,
      influences: once(() => spread(influences?.() ?? new Float64Array(0), { rows, n: visits.n })),
      design: (group, covariates) => [
        1,
        ...(dummies ? groups.slice(1).map((place) => Number(place === group)) : []),
        ...(adjusted ? covariates : []),
      ],
    }),
  );
  return { pieces, table };
}

/** Made at the first call and kept: figures under many suppositions ask for it again. */
function once<Made>(make: () => Made): () => Made {
  let made: Made | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

function spread(own: Float64Array, { rows, n }: { rows: readonly number[]; n: number }): Float64Array {
  if (rows.length === n || rows.length === 0) return own;
  const width = own.length / rows.length;
  const all = new Float64Array(n * width);
  for (const [i, row] of rows.entries()) all.set(own.subarray(i * width, (i + 1) * width), row * width);
  return all;
}

/** A law for all groups together. */
function together(visits: Visits, options: EndOptions): { best: Candidate | null; table: LawInComparison[] } {
  const groups = visits.groups.map((_, i) => i);
  const rows = Array.from({ length: visits.n }, (_, row) => row);
  const { pieces, table } = fitted(visits, { ...options, rows, groups, adjusted: true });
  const piece = pieces.find(({ fit }) => usable(fit));
  const best = piece && { law: piece.fit.law, pieces: [piece], aic: piece.fit.aic!, compared: table };
  return { best: best ?? null, table };
}

/** The same law for each group with a spread of its own; null where one group has no fit under any law. */
function byGroup(visits: Visits, options: EndOptions & { adjusted: boolean }): Candidate | null {
  const found = visits.groups.map((_, i) => {
    const rows = Array.from({ length: visits.n }, (_, row) => row).filter((row) => visits.group[row] === i);
    return fitted(visits, { ...options, rows, groups: [i] });
  });
  let best: Candidate | null = null;
  for (const law of options.laws) {
    const pieces = found.map(({ pieces: own }) => own.find(({ fit }) => fit.law === law && usable(fit)));
    if (!pieces.every((piece) => piece !== undefined)) continue;
    const aic = pieces.reduce((sum, { fit }) => sum + fit.aic!, 0);
    if (best === null || aic < best.aic) best = { law, pieces, aic, compared: [] };
  }
  return best;
}

/** Summed weights of the ends seen in each group. */
const endsByGroup = (visits: Visits, end: number): number[] =>
  visits.groups.map((_, i) =>
    visits.weights.reduce(
      (sum, weight, row) => (visits.group[row] === i && visits.ends[row] === end ? sum + weight : sum),
      0,
    ),
  );

/**
 * The end that is asked about: groups together or each by itself, and the law, by the smallest AIC.
 */
export function mainEndModel(visits: Visits, options: EndOptions): EndModel {
  const { best: one, table } = together(visits, options);
  const several =
    visits.groups.length > 1 && Math.min(...endsByGroup(visits, options.end)) >= 2 * endsForSpread
      ? byGroup(visits, { ...options, adjusted: true })
      : null;
  const apart = several !== null && (one === null || several.aic < one.aic - clearlyBetter);
  const chosen = apart ? several : one;
  return {
    end: options.end,
    form: apart ? "by-group" : "together",
    law: chosen?.law ?? null,
    compared: table,
    aic: chosen?.aic ?? null,
    pieces: chosen?.pieces ?? [],
    reason: chosen ? null : reasonOf(table[0]?.fit),
  };
}

/** Laws of the other ends. */
const otherLaws: readonly TimeLaw[] = ["exponential", "weibull", "log-normal"];

/** Another end: with groups and covariates where enough of them were seen, else each group by itself. */
export function otherEndModel(visits: Visits, given: EndOptions): EndModel {
  const options = { ...given, laws: otherLaws };
  const seen = endsByGroup(visits, options.end);
  const total = seen.reduce((sum, count) => sum + count, 0);
  const coefficients = visits.groups.length - 1 + visits.covariates.names.length;
  if (total >= endsForCoefficient * Math.max(1, coefficients)) {
    const { best, table } = together(visits, options);
    if (best) {
      const { law, aic, pieces } = best;
      return { end: options.end, form: "together", law, compared: table, aic, pieces, reason: null };
    }
  }
  const pieces = visits.groups.flatMap((_, i) => {
    if (seen[i] === 0) return [];
    const rows = Array.from({ length: visits.n }, (_, row) => row).filter((row) => visits.group[row] === i);
    const laws: readonly TimeLaw[] = seen[i]! >= endsForSpread ? otherLaws : ["exponential"];
    const own = fitted(visits, { ...options, laws, rows, groups: [i], adjusted: false });
    return own.pieces.filter(({ fit }) => usable(fit)).slice(0, 1);
  });
  const whole = pieces.length === seen.filter((count) => count > 0).length;
  return {
    end: options.end,
    form: "groups-alone",
    law: null,
    compared: [],
    aic: null,
    pieces,
    reason: whole ? null : "monotone-likelihood",
  };
}
