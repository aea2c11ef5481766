import type { OutcomeRecord } from "../../cohort/record.js";
import { frailtyRegression } from "../../statistics/hazards/index.js";
import { personsAmong } from "../columns.js";
import { estimateOf, missing } from "../estimates.js";
import type { ExactResults } from "../exact-results.js";
import type { Grouping, Settled } from "../groups.js";
import { adjustedHazardRows, hazardColumns } from "../hazard-rows.js";
import { pairRowsOf } from "../pair-rows.js";

type Frailty = NonNullable<ExactResults["sites"]>["frailty"][number];

/**
 * The ratio of the rates of return of each group to the reference, with a gamma frailty that the injuries of a site share in the
 * place of a stratum of the site: what else is held equal stays so. It uses the injuries of sites too small to be strata as well.
 */
export function frailtiesOf({ groups, clustered }: Grouping, { comparison, level }: Settled): Frailty[] {
  const strata = comparison.strata.filter((field) => field !== "site_id");
  const { numbers, smallestGroup } = comparison;
  const reference = groups.find(({ label }) => label === comparison.reference)!;
  return groups
    .filter((group) => group !== reference)
    .map((compared) => {
      const pair = pairRowsOf({ compared, reference }, { clustered, fields: strata });
      const { rows } = adjustedHazardRows(pair, { strata, numbers, smallestGroup });
      const { records } = rows;
      const names = [...new Set(records.map(siteOf))];
      const about = {
        compared: compared.label,
        reference: reference.label,
        held_equal: [...strata, ...numbers],
        n: records.length,
        events: records.filter(({ end }) => end === "milestone").length,
        persons: personsAmong(records),
        sites: names.length,
      };
      if (records.length === 0) return { ...about, ...nothing("no-overlap") };
      const { clusters: _, ...columns } = hazardColumns(rows, { numbers });
      return { ...about, ...fitted({ ...columns, groups: codesOf(records, names) }, { level, names }) };
    });
}

const codesOf = (records: readonly OutcomeRecord[], names: readonly string[]): Int32Array => {
  const codes = new Map(names.map((name, code) => [name, code]));
  return Int32Array.from(records, (record) => codes.get(siteOf(record))!);
};

/** Of several sites that were joined every injury has its site. */
const siteOf = ({ site }: OutcomeRecord): string => site ?? "";

type Fitted = Pick<Frailty, "hazard_ratio" | "standard_error" | "p" | "variance" | "no_frailty" | "rates">;

function fitted(
  columns: Parameters<typeof frailtyRegression>[0],
  { level, names }: { readonly level: number; readonly names: readonly string[] },
): Fitted {
  const { hazardRatios, standardErrors, theta, noFrailty, frailties, converged } = frailtyRegression(
    columns,
    {
      level,
    },
  );
  const { estimate, lower, upper, p, reason } = hazardRatios[0]!;
  const why = converged ? reason : (reason ?? "not-converged");
  return {
    hazard_ratio: estimateOf({ value: estimate, lower, upper, reason: why }),
    standard_error: standardErrors[0] ?? null,
    p,
    variance: estimateOf({
      value: theta.estimate,
      lower: theta.lower,
      upper: theta.upper,
      reason: theta.estimate === null || theta.upper === null ? (why ?? "not-converged") : null,
    }),
    no_frailty: { statistic: noFrailty.statistic, p: noFrailty.p, reason: noFrailty.reason },
    rates: names.map((site, i) => ({ site, rate: frailties[i] ?? null })),
  };
}

const nothing = (reason: "no-overlap"): Fitted => ({
  hazard_ratio: missing(reason),
  standard_error: null,
  p: null,
  variance: missing(reason),
  no_frailty: { statistic: null, p: null, reason },
  rates: [],
});
