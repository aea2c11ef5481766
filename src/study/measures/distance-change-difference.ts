import { baselineAdjusted, welch } from "../../statistics/index.js";
import { differenceOverPersons, personCodes } from "../change-over-persons.js";
import { completePairs, type DistanceBeforeAfter } from "../distance-pairs.js";
import { estimateOf, missing } from "../estimates.js";
import { type Adjusted, difference, type Estimated, measure } from "./measure.js";

type Readings = readonly DistanceBeforeAfter[];
type Sides = Readonly<Record<"compared" | "reference", Readings>>;

/**
 * Change of the tendon-phalanx distance from first to last reading, compared less reference: difference of the mean changes,
 * and adjusted for the distance at baseline.
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
  estimate: (pair, { distance, level }) => {
    const compared = completePairs(pair.compared.records, distance);
    const reference = completePairs(pair.reference.records, distance);
    if (compared.length + reference.length === 0) return { crude: [], adjusted: [] };
    const counts = {
      n: { compared: compared.length, reference: reference.length },
      events: { compared: 0, reference: 0 },
    };
    return {
      crude: [{ ...counts, ...crude({ compared, reference }, level) }],
      adjusted: [{ ...counts, ...adjusted({ compared, reference }, level) }],
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

function adjusted({ compared, reference }: Sides, level: number): Adjusted<"baseline_adjusted_regression"> {
  const common = {
    method: "baseline_adjusted_regression",
    adjusted_for: ["distance at baseline"],
    main: true,
  } as const;
  if (compared.length === 0 || reference.length === 0) {
    return { ...common, estimate: missing("one-group"), standard_error: null, p: null, clustered: false };
  }
  const rows = [...compared, ...reference];
  const clusters = personCodes(rows);
  const fit = baselineAdjusted(
    {
      baseline: rows.map(({ beforeMm }) => beforeMm),
      followUp: rows.map(({ afterMm }) => afterMm),
      groups: [...compared.map(() => 1), ...reference.map(() => 0)],
      ...(clusters && { clusters }),
    },
    { reference: 0, level, ...(clusters && { variance: "reduced-bias" }) },
  );
  const { difference: value, lower, upper, standardError, p, reason } = fit.differences[0]!;
  return {
    ...common,
    estimate: estimateOf({ value, lower, upper, reason: reason ?? fit.reason }),
    standard_error: standardError,
    p,
    clustered: clusters !== undefined,
  };
}
