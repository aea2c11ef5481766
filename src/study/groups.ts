import type { OutcomeRecord } from "../cohort/record.js";
import * as terms from "../schema/terms.js";
import {
  type Curve,
  incidenceCurve,
  type RestrictedMean,
  restrictedIncidenceMean,
} from "../statistics/index.js";
import { type Columns, columnsOf, countedFor, personsAmong } from "./columns.js";
import type { Comparable } from "./plan.js";
import type { CurveFamily } from "./results-curves.js";
import type { Path } from "./results-known.js";
import { type Modelled, type ModelledGroup, modelled } from "./spans/model.js";
import type { Specification } from "./specification.js";

/** Records under one name. */
export interface Members {
  readonly label: string;
  readonly records: readonly OutcomeRecord[];
}

/** Records that are looked at together, with what the figures about them start from. */
export interface Group extends Members {
  readonly columns: Columns;
  readonly curve: Curve;
  /** Computed where it is asked for: cells of a grid have no use for it. */
  readonly restrictedMean: () => RestrictedMean;
  /** What the model of spans says of it; null where every return stands on a day. */
  readonly modelled: ModelledGroup | null;
}

/** A group of which the model of spans speaks. */
export interface GroupInSpans extends Group {
  readonly modelled: ModelledGroup;
}

/** Where nobody returned there are no spans, and where nobody is there is nothing: the curve by days says all. */
export const hasSpans = (group: Group): group is GroupInSpans =>
  group.modelled !== null && group.modelled !== "no-events" && group.modelled !== "no-rows";

/** Groups set side by side, and who is in none of them. */
export interface Grouping {
  readonly family: CurveFamily["family"];
  readonly entry: CurveFamily["entry"];
  readonly groups: readonly Group[];
  /** Whether somebody has more than one injury here, so that rows are not independent. */
  readonly clustered: boolean;
  readonly leftOut: readonly { readonly code: string; readonly n: number }[];
  /** The model of all groups; null where every return stands on a day. */
  readonly modelled: Modelled | null;
}

/** A specification with the path that the data settled. */
export type Settled = Specification & { readonly path: Path };
type Asked = Pick<Settled, "horizonDay" | "level" | "shareBack" | "landmarks" | "path">;

/** Groups of these members, with what is estimated of each. */
export function groupingOf(
  {
    members,
    family,
    entry,
    leftOut,
  }: Omit<Grouping, "groups" | "clustered" | "modelled"> & { readonly members: readonly Members[] },
  asked: Asked,
): Grouping {
  const { horizonDay: horizon, level, shareBack } = asked;
  const all = members.flatMap(({ records }) => records);
  const clustered = personsAmong(all) < all.length;
  const found = asked.path === "spans" ? modelled(members, { ...asked, clustered }) : null;
  const groups = members.map(({ label, records }, i): Group => {
    const columns = columnsOf(records, { clustered });
    const counted = countedFor(columns, shareBack);
    return {
      label,
      records,
      columns,
      curve: incidenceCurve(counted, { level }),
      restrictedMean: () => restrictedIncidenceMean(counted, { horizon, level }),
      modelled: found?.groups[i] ?? null,
    };
  });
  return { family, entry, leftOut, groups, clustered, modelled: found };
}

/** Every analysed injury as one group. */
export function everybody(
  records: readonly OutcomeRecord[],
  { question, ...times }: Asked & Pick<Specification, "question">,
): Grouping {
  const members = [{ label: "all injuries", records }];
  return groupingOf({ family: "all", entry: question.entry, members, leftOut: [] }, times);
}

/** One group a grade that occurs, in the order of severity. */
export function byGrade(
  records: readonly OutcomeRecord[],
  { question, ...times }: Asked & Pick<Specification, "question">,
): Grouping {
  const members = terms.grades
    .map((grade) => ({ label: grade, records: records.filter((record) => record.grade === grade) }))
    .filter((group) => group.records.length > 0);
  return groupingOf({ family: "grade", entry: question.entry, members, leftOut: [] }, times);
}

/**
 * The groups that are compared, in the order of the study file.
 *
 * When treatments are compared and the clock started earlier, a record is at risk only after its treatment began:
 * whoever is in a treatment's group had, by that, not yet returned before it, and that time may not count for it.
 */
export function compared(
  records: readonly OutcomeRecord[],
  { question, comparison, ...times }: Asked & Pick<Specification, "question" | "comparison">,
): Grouping {
  const { by, labels } = comparison;
  const fromTreatment = by === "first_treatment" && question.clock !== "treatment_start";
  const members = new Map<string, OutcomeRecord[]>(labels.map((label) => [label, []]));
  const leftOut = new Map<string, number>();
  for (const record of records) {
    const placed = fromTreatment ? enteredWithTreatment(record) : record;
    const label = groupValue(record, by);
    const reason =
      (by === "first_treatment" ? notOneTreatment(label) : null) ?? reasonOutside(label, placed, members);
    if (reason === null) members.get(label!)!.push(placed as OutcomeRecord);
    else leftOut.set(reason, (leftOut.get(reason) ?? 0) + 1);
  }
  return groupingOf(
    {
      family: "compared",
      entry: fromTreatment ? "treatment" : question.entry,
      members: labels.map((label) => ({ label, records: members.get(label)! })),
      leftOut: [...leftOut].sort(([a], [b]) => (a < b ? -1 : 1)).map(([code, n]) => ({ code, n })),
    },
    times,
  );
}

type NotPlaced = "treatment-without-start" | "milestone-before-treatment" | "no-follow-up-after-treatment";

/** Why no treatment is the first; null where one is. */
function notOneTreatment(label: string | null): string | null {
  if (label === "several") return "two-first-treatments-on-one-day";
  if (label === "not_read") return "first-treatment-not-read";
  return label === "order_not_known" ? "first-treatment-not-known" : null;
}

/** Why a record is in none of the groups, or null when it is in one. */
function reasonOutside(
  label: string | null,
  placed: OutcomeRecord | NotPlaced,
  members: ReadonlyMap<string, unknown>,
): string | null {
  if (label === null) return "not-recorded";
  if (!members.has(label)) return `not-compared: ${label}`;
  return typeof placed === "string" ? placed : null;
}

function enteredWithTreatment(record: OutcomeRecord): OutcomeRecord | NotPlaced {
  if (record.firstTreatmentDay === null) return "treatment-without-start";
  const entry = Math.max(record.entry, record.firstTreatmentDay);
  if (record.time <= entry)
    return record.end === "milestone" ? "milestone-before-treatment" : "no-follow-up-after-treatment";
  return { ...record, entry };
}

/** The value a record is grouped by, which may be a treatment that is not compared; null where none was recorded. */
export function groupValue(record: OutcomeRecord, by: Comparable): string | null {
  return by === "first_treatment" ? (record.firstTreatment ?? record.otherTreatment) : record.covariates[by];
}
