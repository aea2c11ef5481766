import { toColumns } from "../cohort/columns.js";
import type { OutcomeRecord } from "../cohort/record.js";
import * as terms from "../schema/terms.js";
import type { CompetingEvents, TimeToEvent } from "../statistics/index.js";
import type { ExactFamily } from "./exact-results.js";
import type { Comparable, Plan } from "./plan.js";

/** Records that are looked at together. */
export interface Group {
  readonly label: string;
  readonly records: readonly OutcomeRecord[];
}

/** Groups set side by side, and who is in none of them. */
export interface Grouping {
  readonly family: ExactFamily["family"];
  readonly entry: ExactFamily["entry"];
  readonly groups: readonly Group[];
  /** Whether somebody has more than one injury here, so that rows are not independent. */
  readonly clustered: boolean;
  readonly leftOut: readonly { readonly code: string; readonly n: number }[];
}

/** Every analysed injury as one group. */
export function everybody(records: readonly OutcomeRecord[], { question }: Plan): Grouping {
  return {
    family: "all",
    entry: question.entry,
    groups: [{ label: "all injuries", records }],
    clustered: repeatsPersons(records),
    leftOut: [],
  };
}

/** One group a grade that occurs, in the order of severity. */
export function byGrade(records: readonly OutcomeRecord[], { question }: Plan): Grouping {
  const groups = terms.grades
    .map((grade) => ({ label: grade, records: records.filter((record) => record.grade === grade) }))
    .filter((group) => group.records.length > 0);
  return { family: "grade", entry: question.entry, groups, clustered: repeatsPersons(records), leftOut: [] };
}

/**
 * The groups the plan compares, in its order.
 *
 * When treatments are compared and the clock started earlier, a record is at risk only after its treatment began:
 * whoever is in a treatment's group had, by that, not yet returned before it, and that time may not count for it.
 */
export function compared(records: readonly OutcomeRecord[], plan: Plan): Grouping {
  const { by, groups: labels } = plan.compare;
  const fromTreatment = by === "first_treatment" && plan.question.clock !== "treatment_start";
  const members = new Map<string, OutcomeRecord[]>(labels.map((label) => [label, []]));
  const leftOut = new Map<string, number>();
  for (const record of records) {
    const placed = fromTreatment ? enteredWithTreatment(record) : record;
    const label = groupValue(record, by);
    const reason =
      by === "first_treatment" && label === "several"
        ? "two-first-treatments-on-one-day"
        : reasonOutside(label, placed, members);
    if (reason === null) members.get(label!)!.push(placed as OutcomeRecord);
    else leftOut.set(reason, (leftOut.get(reason) ?? 0) + 1);
  }
  const groups = labels.map((label) => ({ label, records: members.get(label)! }));
  return {
    family: "compared",
    entry: fromTreatment ? "treatment" : plan.question.entry,
    groups,
    clustered: repeatsPersons(groups.flatMap((group) => group.records)),
    leftOut: [...leftOut].sort(([a], [b]) => (a < b ? -1 : 1)).map(([code, n]) => ({ code, n })),
  };
}

/** Why a record is in none of the groups, or null when it is in one. */
function reasonOutside(
  label: string | null,
  placed: OutcomeRecord | "returned-before" | "ended-before",
  members: ReadonlyMap<string, unknown>,
): string | null {
  if (label === null) return "not-recorded";
  if (!members.has(label)) return `not-compared: ${label}`;
  if (placed === "returned-before") return "milestone-before-treatment";
  if (placed === "ended-before") return "no-follow-up-after-treatment";
  return null;
}

function enteredWithTreatment(record: OutcomeRecord): OutcomeRecord | "returned-before" | "ended-before" {
  const entry = Math.max(record.entry, record.firstTreatmentDay ?? -1);
  if (record.time <= entry) return record.end === "milestone" ? "returned-before" : "ended-before";
  return { ...record, entry };
}

/** The value a record is grouped by; null where it was not recorded. */
export function groupValue(record: OutcomeRecord, by: Comparable): string | null {
  return by === "first_treatment" ? record.firstTreatment : record.covariates[by];
}

/** Columns of one group for the statistics layer, which takes no column that a method has no use for. */
interface Columns {
  readonly timeToEvent: TimeToEvent;
  readonly competing: CompetingEvents;
}
/** Columns made before, by the list of records they were made from: every estimate of a group starts from the same. */
const made = new WeakMap<readonly OutcomeRecord[], { clustered?: Columns; independent?: Columns }>();

function madeOnce(records: readonly OutcomeRecord[], clustered: boolean): Columns {
  const before = made.get(records) ?? {};
  made.set(records, before);
  const kind = clustered ? "clustered" : "independent";
  before[kind] ??= columnsOf(records, clustered);
  return before[kind];
}

/** Times and events; entries only where somebody enters late, clusters only where needed. */
export const timeToEventOf = (records: readonly OutcomeRecord[], clustered: boolean): TimeToEvent =>
  madeOnce(records, clustered).timeToEvent;

/** The same with what came first in place of the events. */
export const competingEventsOf = (records: readonly OutcomeRecord[], clustered: boolean): CompetingEvents =>
  madeOnce(records, clustered).competing;

function columnsOf(records: readonly OutcomeRecord[], clustered: boolean): Columns {
  const { times, events, causes, entries, persons } = toColumns(records);
  const late = records.some(({ entry }) => entry >= 0);
  const common = { times, ...(late ? { entries } : {}), ...(clustered ? { clusters: persons } : {}) };
  return { timeToEvent: { ...common, events }, competing: { ...common, causes } };
}

function repeatsPersons(records: readonly OutcomeRecord[]): boolean {
  return personsAmong(records) < records.length;
}

/** Independent units among records: persons where some have several injuries, else injuries. */
export const unitsAmong = (records: readonly OutcomeRecord[], clustered: boolean): number =>
  clustered ? personsAmong(records) : records.length;

/** Number of different persons. */
export function personsAmong(records: readonly OutcomeRecord[]): number {
  const persons = new Set<string>();
  for (const { person } of records) persons.add(person);
  return persons.size;
}
