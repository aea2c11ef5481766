import { linearRegression, welch } from "../../statistics/index.js";
import { differenceOverPersons, personCodes } from "../change-over-persons.js";
import { completePairs, type DistanceBeforeAfter } from "../distance-pairs.js";
import { estimateOf, missing } from "../estimates.js";
import type { Specification } from "../specification.js";
import { type Adjusted, difference, type Estimated, measure } from "./measure.js";

type Readings = readonly DistanceBeforeAfter[];
type Sides = Readonly<Record<"compared" | "reference", Readings>>;

/**
 * Change of the tendon-phalanx distance from baseline to last reading, compared less reference: difference of the mean changes, and that at
 * equal distance at baseline, grade and time between the readings, by a regression with one slope for both groups.
 */
export const distanceChangeDifference = measure({
  key: "distance_change_difference",
  ...difference,
  unit: "mm",
  outcome: "distance",
  above: "worse",
  day: null,
  basis: "distances",
  methods: ["welch", "clustered_means", "baseline_adjusted_regression"],
  estimate: (pair, { comparison, distance, level }) => {
    const compared = completePairs(pair.compared.records, distance);
    const reference = completePairs(pair.reference.records, distance);
    if (compared.length + reference.length === 0) return { crude: [], adjusted: [] };
    const counts = {
      n: { compared: compared.length, reference: reference.length },
      events: { compared: 0, reference: 0 },
    };
    return {
      crude: [{ ...counts, ...crude({ compared, reference }, level) }],
      adjusted: [adjusted({ compared, reference }, { comparison, level })],
    };
  },
});

/** Means compared: with unequal variances, or where a person has several fingers here over persons. */
function crude({ compared, reference }: Sides, level: number): Estimated<"welch" | "clustered_means"> {
  const rows = [...compared, ...reference];
  const clusters = personCodes(rows);
  if (clusters === undefined || compared.length === 0 || reference.length === 0) {
    const found = welch(compared.map(changeOf), reference.map(changeOf), { level });
    const { difference: value, lower, upper, reason, standardError, p } = found;
    const estimate = estimateOf({ value, lower, upper, reason });
    return { estimate, standard_error: standardError, p, method: "welch", clustered: false, main: false };
  }
  const groups = rows.map((_, row) => (row < compared.length ? 1 : 0));
  const found = differenceOverPersons(rows.map(changeOf), { groups, clusters, level });
  return { ...found, method: "clustered_means", clustered: true, main: false };
}

const changeOf = ({ beforeMm, afterMm }: DistanceBeforeAfter): number => afterMm - beforeMm;

/** What the adjusted difference holds equal besides the distance at baseline: the grade, unless grades are compared, and the time between. */
function adjusted(
  { compared, reference }: Sides,
  { comparison, level }: Pick<Specification, "comparison" | "level">,
): Adjusted<"baseline_adjusted_regression"> {
  const byGrade = comparison.by === "grade";
  const adjusted_for = ["distance at baseline", ...(byGrade ? [] : ["grade"]), "days between readings"];
  const isUsed = ({ grade }: DistanceBeforeAfter) => byGrade || grade !== null;
  const used = { compared: compared.filter(isUsed), reference: reference.filter(isUsed) };
  const rows = [...used.compared, ...used.reference];
  const without = compared.length + reference.length - rows.length;
  const common = {
    method: "baseline_adjusted_regression",
    adjusted_for,
    main: true,
    n: { compared: used.compared.length, reference: used.reference.length },
    events: { compared: 0, reference: 0 },
    left_out: without === 0 ? [] : [{ stratum: "grade", n: without, reason: "missing-covariate" as const }],
  } as const;
  if (used.compared.length === 0 || used.reference.length === 0) {
    return { ...common, estimate: missing("one-group"), standard_error: null, p: null, clustered: false };
  }
  const clusters = personCodes(rows);
  const [, ...otherGrades] = byGrade ? [null] : [...new Set(rows.map(({ grade }) => grade))].sort();
  const fit = linearRegression(
    {
      response: rows.map(({ afterMm }) => afterMm),
      covariates: {
        // the group comes last, so that it has no figure where the rest tells who is in it
        names: ["baseline", "days between", ...otherGrades.map((grade) => `grade ${grade}`), "group"],
        columns: [
          rows.map(({ beforeMm }) => beforeMm),
          rows.map(({ daysBetween }) => daysBetween),
          ...otherGrades.map((wanted) => rows.map(({ grade }) => (grade === wanted ? 1 : 0))),
          rows.map((_, row) => (row < used.compared.length ? 1 : 0)),
        ],
      },
      ...(clusters && { clusters }),
    },
    { level, ...(clusters && { variance: "reduced-bias" }) },
  );
  const last = fit.coefficients.length - 1;
  return {
    ...common,
    estimate: estimateOf({
      value: fit.coefficients[last] ?? null,
      lower: fit.lower[last] ?? null,
      upper: fit.upper[last] ?? null,
      reason: fit.reasons[last] ?? fit.reason,
    }),
    standard_error: fit.standardErrors[last] ?? null,
    p: fit.p[last] ?? null,
    clustered: clusters !== undefined,
  };
}
