import { deriveCohort } from "../cohort/derive.js";
import type { Question } from "../cohort/question.js";
import type { Excluded, LinkedInjury, OutcomeRecord } from "../cohort/record.js";
import { type CsvCell, csvText } from "../schema/csv-text.js";
import { dateOfDay, dayNumber } from "../schema/dates.js";
import { labelOf } from "../schema/labels.js";
import { type Milestone, milestones } from "../schema/terms.js";
import { adtteVariables, censorCodes } from "./adtte-variables.js";

/** One record of the dataset, by variable. */
export type AdtteRow = Readonly<Record<string, CsvCell>>;

/** The dataset, the injuries that gave no record, and the account: injuries = records + left out, for each parameter. */
export interface Adtte {
  readonly rows: readonly AdtteRow[];
  readonly leftOut: readonly {
    readonly parameter: string;
    readonly injury: string;
    readonly reason: Excluded["excluded"];
  }[];
  readonly account: readonly {
    readonly parameter: string;
    readonly injuries: number;
    readonly records: number;
    readonly left_out: number;
  }[];
}

export const parameters: Readonly<Record<Milestone, { readonly code: string; readonly words: string }>> = {
  easy_climbing: { code: "EASYCLMB", words: "Time to Easy Climbing (days)" },
  full_climbing: { code: "FULLCLMB", words: "Time to Full Climbing (days)" },
  previous_level: { code: "PREVLVL", words: "Time to Previous Level (days)" },
};

/**
 * The time-to-event dataset of a cohort: one record an injury and return, under the clock, entry and ends of the study.
 * A subject with several injuries has several records of one parameter, told apart by INJID.
 *
 * @param linked injuries with their rows
 * @param options the study's question, of which the milestone is set to each return in turn, and its short name
 * @throws Error where an injury gives neither a record nor a reason
 */
export function adtteOf(
  linked: readonly LinkedInjury[],
  { question, study }: { readonly question: Question; readonly study: string },
): Adtte {
  const byInjury = new Map(linked.map((each) => [each.injury.values.injury_id, each]));
  const parts = milestones.map((milestone) => {
    const asked = { ...question, milestone };
    const { records, excluded } = deriveCohort(linked, asked);
    const rows = records.map((record) =>
      rowOf(record, { linked: byInjury.get(record.injury)!, question: asked, study }),
    );
    return { parameter: parameters[milestone].code, rows, excluded };
  });
  return {
    rows: numbered(parts.flatMap(({ rows }) => rows)),
    leftOut: parts.flatMap(({ parameter, excluded }) =>
      excluded.map(({ injury, excluded: reason }) => ({ parameter, injury, reason })),
    ),
    account: parts.map(({ parameter, rows, excluded }) => ({
      parameter,
      injuries: linked.length,
      records: rows.length,
      left_out: excluded.length,
    })),
  };
}

/** The dataset as CSV, one column a variable. */
export const adtteText = ({ rows }: Adtte): string => {
  const names = adtteVariables.map(({ name }) => name);
  return csvText(
    names,
    rows.map((row) => names.map((name) => row[name] ?? null)),
  );
};

/** The definitions of the variables as CSV; lengths are those of the longest value that is there. */
export function adtteDefinitions({ rows }: Adtte): string {
  const lengthOf = (name: string) =>
    rows.reduce((longest, row) => Math.max(longest, String(row[name] ?? "").length), 1);
  return csvText(
    ["dataset", "name", "label", "type", "length", "format", "codelist", "derivation"],
    adtteVariables.map(({ name, label, type, format, codelist, derivation }) => [
      "ADTTE",
      name,
      label,
      type,
      type === "Num" ? 8 : lengthOf(name),
      format,
      codelist,
      derivation,
    ]),
  );
}

function rowOf(
  record: OutcomeRecord,
  {
    linked,
    question,
    study,
  }: { readonly linked: LinkedInjury; readonly question: Question; readonly study: string },
): AdtteRow {
  const { values } = linked.injury;
  const { code, words } = parameters[question.milestone];
  const isEvent = record.end === "milestone";
  const first = record.firstTreatment ?? record.otherTreatment;
  const treatment = first === null ? "none" : labelOf(first);
  const roughOrigin = question.clock === "injury" && !toTheDay(values.injury_date_precision);
  return {
    STUDYID: study,
    USUBJID: `${study}-${record.person}`,
    SITEID: record.site,
    INJID: record.injury,
    TRTP: treatment,
    TRTA: treatment,
    AGE: values.age_at_injury,
    AGEU: values.age_at_injury === null ? null : "YEARS",
    SEX: values.sex === null ? null : (sexCodes[values.sex] ?? "U"),
    INJGR: record.grade,
    PARAMCD: code,
    PARAM: words,
    PARAMN: milestones.indexOf(question.milestone) + 1,
    AVAL: record.time,
    AVALLO: record.milestone.left,
    AVALHI: record.milestone.right,
    ENTRYDY: record.entry,
    STARTDT: record.clockStart,
    STARTDTF: roughOrigin ? "D" : null,
    ADT: dateOfDay(dayNumber(record.clockStart) + record.time),
    ADTF: isEvent && record.milestone.known !== "day" ? "D" : null,
    CNSR: censorCodes[record.end],
    EVNTDESC: isEvent
      ? `${eventWords[question.milestone]}, ${knownWords[record.milestone.known]}`
      : endWords[record.end].event,
    CNSDTDSC: isEvent ? null : endWords[record.end].date,
  };
}

/** Records in the order of subject, injury and parameter, with their number within the subject. */
function numbered(rows: readonly AdtteRow[]): readonly AdtteRow[] {
  const keys = ["USUBJID", "INJID", "PARAMN"] as const;
  const sorted = [...rows].sort((one, other) => {
    const key = keys.find((name) => one[name] !== other[name]);
    return key === undefined ? 0 : one[key]! < other[key]! ? -1 : 1;
  });
  const counts = new Map<CsvCell, number>();
  return sorted.map((row) => {
    const subject = row.USUBJID ?? null;
    const count = (counts.get(subject) ?? 0) + 1;
    counts.set(subject, count);
    return { ...row, ASEQ: count };
  });
}

const toTheDay = (precision: string | null): boolean => precision === null || precision === "day";

const sexCodes: Readonly<Record<string, string>> = { female: "F", male: "M" };

const eventWords: Readonly<Record<Milestone, string>> = {
  easy_climbing: "Easy climbing reached",
  full_climbing: "Full climbing reached",
  previous_level: "Previous level reached",
};

const knownWords: Readonly<Record<OutcomeRecord["milestone"]["known"], string>> = {
  day: "date known to the day",
  week: "date known to the week",
  month: "date known to the month",
  visits: "between two contacts",
  not_reached: "day not known",
};

const endWords: Readonly<Record<OutcomeRecord["end"], { readonly event: string; readonly date: string }>> = {
  milestone: { event: "", date: "" },
  censored: { event: "Not reached at last contact", date: "Last contact or close of the data" },
  gave_up: { event: "Gave up climbing before it", date: "Day of giving up, or last contact" },
  new_rupture: { event: "New rupture of the finger before it", date: "Day of the new rupture" },
  surgery: { event: "Surgery after another treatment before it", date: "Day of surgery" },
  died: { event: "Died before it", date: "Last contact" },
};
