import { estimandOfFamily } from "../../study/index.js";
import type { CurveResult, Estimate, Results } from "../../study/results.js";
import { type ColumnsOf, type FlatTable, flatTable, type ParentAndChild, unfold } from "./reshape.js";

type Child<K extends "points" | "landmarks" | "quantiles" | "number_at_risk"> = ParentAndChild<
  CurveResult,
  CurveResult[K][number]
>;

/** Points, landmarks, quantiles, restricted means and numbers at risk of every curve. */
export function curveTables({ curves }: Results): FlatTable[] {
  const all = curves.flatMap((family) => family.curves);
  const ofEach = curves.flatMap((family) =>
    family.curves.map((curve) => ({ ...curve, estimand: estimandOfFamily(family) })),
  );
  const of = { family: named(({ family }) => family), group: named(({ label }) => label) };
  const points: ColumnsOf<Child<"points">> = {
    ...of,
    day: ({ child }) => child.day,
    at_risk: ({ child }) => child.at_risk,
    events: ({ child }) => child.events,
    censored: ({ child }) => child.censored,
    competing_ends: ({ child }) => child.competing,
    not_yet: ({ child }) => child.not_yet,
    returned: ({ child }) => child.returned,
    standard_error: ({ child }) => child.standard_error,
    returned_lower: ({ child }) => child.returned_lower,
    returned_upper: ({ child }) => child.returned_upper,
  };
  const landmarks: ColumnsOf<Child<"landmarks">> = {
    ...of,
    week: ({ child }) => child.week,
    day: ({ child }) => child.day,
    at_risk: ({ child }) => child.at_risk,
    ...estimateColumns("returned", ({ child }) => child.returned),
  };
  const quantiles: ColumnsOf<Child<"quantiles">> = {
    ...of,
    share: ({ child }) => child.share,
    ...estimateColumns("days", ({ child }) => child.days),
  };
  const atRisk: ColumnsOf<Child<"number_at_risk">> = {
    ...of,
    day: ({ child }) => child.day,
    at_risk: ({ child }) => child.at_risk,
    events_so_far: ({ child }) => child.events,
  };
  return [
    curvesTable(ofEach),
    flatTable("curve-points", { things: unfold(all, (curve) => curve.points), columns: points }),
    flatTable("landmarks", { things: unfold(all, (curve) => curve.landmarks), columns: landmarks }),
    flatTable("quantiles", { things: unfold(all, (curve) => curve.quantiles), columns: quantiles }),
    flatTable("number-at-risk", { things: unfold(all, (curve) => curve.number_at_risk), columns: atRisk }),
  ];
}

const named =
  (name: (curve: CurveResult) => string) =>
  ({ parent }: { readonly parent: CurveResult }): string =>
    name(parent);

const curvesTable = (curves: readonly (CurveResult & { readonly estimand: string })[]): FlatTable =>
  flatTable("curves", {
    things: curves,
    columns: {
      family: ({ family }) => family,
      group: ({ label }) => label,
      injuries: ({ n }) => n,
      persons: ({ persons }) => persons,
      events: ({ events }) => events,
      competing_ends: ({ competing }) => competing,
      last_day: ({ last_day }) => last_day,
      horizon_days: ({ restricted_mean }) => restricted_mean.horizon_days,
      ...estimateColumns<CurveResult>("restricted_mean_days", ({ restricted_mean }) => restricted_mean.days),
      restricted_mean_standard_error: ({ restricted_mean }) => restricted_mean.standard_error,
      estimand: ({ estimand }) => estimand,
    },
  });

/** The four columns of an estimate: value, limits, and the reason code where one is missing. */
export function estimateColumns<T>(name: string, estimateOf: (row: T) => Estimate): ColumnsOf<T> {
  return {
    [name]: (row) => estimateOf(row).value,
    [`${name}_lower`]: (row) => estimateOf(row).lower,
    [`${name}_upper`]: (row) => estimateOf(row).upper,
    [`${name}_reason`]: (row) => estimateOf(row).reason,
  };
}
