import type { OutcomeRecord } from "../cohort/record.js";
import { termsOfGroups } from "../schema/covariates.js";
import { quantileTime } from "../statistics/index.js";
import { fallsEarly } from "./curves.js";
import { estimateOfFigures, missing, shareBackAt } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import {
  type Group,
  type GroupInSpans,
  type Grouping,
  groupingOf,
  groupValue,
  hasSpans,
  type Settled,
} from "./groups.js";
import { landmarkDifference } from "./measures/landmark-difference.js";
import { pairsOf } from "./pairs.js";
import { dayOfShare } from "./spans/curves.js";
import { estimateOfVisits } from "./spans/model.js";

type Within = NonNullable<ExactResults["within"]>;
type Row = Within["rows"][number];
type WithinCell = NonNullable<ExactResults["definitions"]>["rows"][number]["cells"][number];

/**
 * The compared groups within each value of one field, grade by grade unless the study says otherwise: so that nobody needs to
 * believe in an average over grades. A group smaller than the study's smallest is counted and not described.
 *
 * @returns null where the study asks for no such field, or compares by it
 */
export function withinOf(compared: Grouping, specification: Settled): Within | null {
  const { within: field } = specification.comparison;
  const main = specification.landmarks.find(({ isMain }) => isMain);
  if (field === null || main === undefined) return null;
  const records = compared.groups.flatMap((group) => group.records);
  const fieldOf = (record: OutcomeRecord) => groupValue(record, field);
  const occurring = new Set(records.map(fieldOf).filter((value) => value !== null));
  const known = termsOfGroups(field) ?? [];
  const values = [
    ...known.filter((term) => occurring.has(term)),
    ...[...occurring].filter((value) => !known.includes(value)).sort(),
  ];
  return {
    field,
    day: main.day,
    rows: values.map((value) => {
      const members = compared.groups.map(({ label, records: own }) => ({
        label,
        records: own.filter((record) => fieldOf(record) === value),
      }));
      const grouping = groupingOf({ ...compared, members }, specification);
      return rowOf({ value, grouping, day: main.day }, specification);
    }),
    not_recorded: records.filter((record) => fieldOf(record) === null).length,
  };
}

function rowOf(
  { value, grouping, day }: { readonly value: string; readonly grouping: Grouping; readonly day: number },
  specification: Settled,
): Row {
  const { comparison, level } = specification;
  const smallest = comparison.smallestGroup;
  // within the field nothing else is held equal
  const crude = { ...comparison, strata: [], numbers: [], adjustFor: [] };
  const main = specification.landmarks.filter(({ isMain }) => isMain);
  return {
    value,
    cells: grouping.groups.map((group) => ({
      ...cellOf(group, { day, smallest, level }),
      landmarks: specification.landmarks.map(({ week, day: at }) => ({
        week,
        day: at,
        returned: cellOf(group, { day: at, smallest, level }).returned,
      })),
      falls_early: fallsEarly(group),
    })),
    differences: pairsOf(grouping, { ...specification, comparison: crude }).map((pair) => {
      const { compared, reference } = pair;
      const isSmall = Math.min(compared.records.length, reference.records.length) < smallest;
      const found = isSmall
        ? null
        : landmarkDifference.estimate(pair, { ...specification, landmarks: main }).crude[0]!;
      return {
        compared: compared.label,
        reference: reference.label,
        returned: found?.estimate ?? missing("too-few-rows"),
        p: found?.p ?? null,
      };
    }),
  };
}

/** A group within some injuries: counted, and described where it is not too small. */
export function cellOf(
  group: Group,
  { day, smallest, level }: { readonly day: number; readonly smallest: number; readonly level: number },
): WithinCell {
  const { label, records, columns, curve } = group;
  const counts = { label, n: records.length, persons: columns.persons(), events: curve.totalEvents };
  if (records.length < smallest)
    return { ...counts, returned: missing("too-few-rows"), half_back: missing("too-few-rows") };
  if (hasSpans(group)) return { ...counts, ...spansAt(group, day) };
  return {
    ...counts,
    returned: shareBackAt(curve, { day, level }).estimate,
    half_back: estimateOfFigures(quantileTime(curve, 0.5)),
  };
}

/** The same by the model of spans. */
function spansAt({ modelled }: GroupInSpans, day: number): Pick<WithinCell, "returned" | "half_back"> {
  if (typeof modelled === "string") return { returned: missing(modelled), half_back: missing(modelled) };
  const { shares } = modelled;
  return {
    returned: estimateOfVisits(shares.find(({ time }) => time === day)!),
    half_back: dayOfShare(shares, 0.5),
  };
}
