import { deriveCohort, linkTables, type OutcomeRecord } from "../../cohort/index.js";
import { readCohort } from "../../ingest/index.js";
import { type MappedFile, type Mapping, tableOf } from "../../ingest/mapping/index.js";
import { counted, labelOf, type ReadCohort, StopError } from "../../schema/index.js";
import { planSchema } from "../../study/plan.js";
import { questionOf } from "../../study/question-of.js";

/**
 * What a study with the usual settings would count of a file that is read by a mapping: people, injuries, grades,
 * treatments, returns, first and last days, and the rows that could not be used. A wrong reading shows in these at once.
 *
 * @returns lines of text; none for a table that says nothing of injuries
 */
export function countLines(
  read: MappedFile,
  { mapping, file }: { readonly mapping: Mapping; readonly file: string },
): readonly string[] {
  if (mapping.table !== "single_sheet" && mapping.table !== "injuries") return [];
  let cohort: ReadCohort;
  try {
    cohort = readCohort([{ table: mapping.table, file, read }], { closedOn: null, thresholdMm: 2 });
  } catch (error) {
    if (error instanceof StopError) return [];
    throw error;
  }
  const asked = questionOf(planSchema.parse({ study: "fit", title: "fit", data: { single_sheet: file } }));
  const { records, excluded } = deriveCohort(linkTables(cohort.tables), asked);
  const others = records
    .filter(({ end }) => end !== "milestone")
    .map(({ end }) => (end === "censored" ? "not yet" : labelOf(end)));
  const open = mapping.undecided.length === 0 ? "" : ", before the open questions are answered";
  return [
    `What a study would count${open}:`,
    ...rowLines(cohort),
    `  ${counted(new Set(records.map(({ person }) => person)).size, "person", "people")}, ${counted(records.length, "injury", "injuries")}${apart(excluded.map(({ excluded: code }) => labelOf(code)))}`,
    `  by grade: ${tally(records.map(({ grade }) => grade))}`,
    ...(hasTreatments(mapping)
      ? [`  by first treatment: ${tally(records.map((record) => labelOf(treatmentOf(record))))}`]
      : []),
    `  back to full climbing: ${records.length - others.length} of ${records.length}${others.length === 0 ? "" : `; others: ${tally(others)}`}`,
    ...dayLines(cohort),
  ];
}

const hasTreatments = (mapping: Mapping): boolean =>
  tableOf(mapping).fields.some(({ name }) => name === "treatment");

const treatmentOf = ({ firstTreatment, otherTreatment }: OutcomeRecord): string =>
  firstTreatment ?? otherTreatment ?? "not_recorded";

/** How often each comes, in the order of their names; a dash where there is nothing. */
function tally(found: readonly string[]): string {
  const times = new Map<string, number>();
  for (const one of found) times.set(one, (times.get(one) ?? 0) + 1);
  const sorted = [...times].sort(([one], [other]) => (one < other ? -1 : 1));
  return sorted.length === 0 ? "\u2013" : sorted.map(([name, n]) => `${name} (${n})`).join(", ");
}

const apart = (reasons: readonly string[]): string =>
  reasons.length === 0 ? "" : ` (${reasons.length} more cannot be analysed: ${tally(reasons)})`;

function rowLines({ accounts }: ReadCohort): readonly string[] {
  return accounts.map(({ read, used, setAside, folded }) => {
    const reasons = setAside.map(({ query }) => labelOf(query.code));
    const visits = folded === undefined ? "" : `, of which ${folded.further} are further visits`;
    const why = reasons.length === 0 ? "" : ` (${tally(reasons)})`;
    return `  ${counted(read, "row", "rows")} read = ${used} used${visits} + ${setAside.length} set aside${why}`;
  });
}

/** First and last day of injury, and until when anybody was heard of. */
function dayLines({ tables: { injuries } }: ReadCohort): readonly string[] {
  const days = injuries.map(({ values }) => values.injury_date).sort();
  const contacts = injuries.map(({ values }) => values.last_contact_date).sort();
  if (days.length === 0) return [];
  return [
    `  injured from ${days[0]} to ${days.at(-1)}; last contact from ${contacts[0]} to ${contacts.at(-1)}`,
  ];
}
