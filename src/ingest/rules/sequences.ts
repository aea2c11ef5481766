import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import { definitionColumns } from "../../schema/definitions.js";
import { levelRank } from "../../schema/levels.js";
import { datedIn, surelyBefore } from "../../schema/rules/dated.js";
import { milestones, type RecordedTreatment } from "../../schema/terms.js";
import type { TreatmentRow } from "../../schema/treatments.js";
import type { VisitRow } from "../../schema/visits.js";
import { byKey, type InjuryWithRows, type LinkRule } from "./link-rule.js";

const byDate = (visits: readonly TypedRow<VisitRow>[]) =>
  [...visits].sort((one, other) => (one.values.date < other.values.date ? -1 : 1));

/** Treatments that nobody begins once climbing is unrestricted, unless the finger is hurt again. */
const notAfterReturn: ReadonlySet<RecordedTreatment> = new Set<RecordedTreatment>([
  "surgery",
  "ring",
  "rest",
  "immobilisation",
]);

/** Surgery, ring or rest begun after unrestricted climbing, and no new rupture that would explain it. */
export const treatmentAfterReturn: LinkRule = function* ({ linked }) {
  for (const { injury, treatments } of linked) {
    const back = datedIn(injury.values, {
      column: "full_climbing_date",
      precision: "full_climbing_precision",
    });
    if (back === null || injury.values.new_rupture_date !== null) continue;
    for (const row of treatments) {
      const { treatment, start_date } = row.values;
      if (start_date === null || !notAfterReturn.has(treatment)) continue;
      if (!surelyBefore(back, { date: start_date, slack: 0 })) continue;
      yield askAbout(row, {
        code: "treatment-after-return",
        severity: "look-at",
        column: "start_date",
        found: start_date,
        facts: { full_climbing_date: back.date, injury_row: injury.row },
      });
    }
  }
};

const conservative: ReadonlySet<RecordedTreatment> = new Set<RecordedTreatment>(["tape", "ring"]);

/** A ring or tape that was on before an operation and, by its dates, stays on through it. */
export const treatmentThroughSurgery: LinkRule = function* ({ linked }) {
  for (const { treatments } of linked) {
    const surgery = treatments.find(({ values }) => values.treatment === "surgery");
    const day = surgery?.values.start_date ?? null;
    if (surgery === undefined || day === null) continue;
    for (const row of treatments) {
      if (!conservative.has(row.values.treatment) || !spans(row.values, day)) continue;
      yield askAbout(row, {
        code: "treatment-through-surgery",
        severity: "look-at",
        column: "end_date",
        found: row.values.end_date ?? "",
        facts: { surgery: day, other_row: surgery.row },
      });
    }
  }
};

const spans = ({ start_date, end_date }: TreatmentRow, day: string): boolean =>
  start_date !== null && start_date < day && (end_date ?? "9999") > day;

/** 'Not yet' at a visit after one that said 'yes', and no new rupture in between. */
export const visitsGoBack: LinkRule = function* ({ linked }) {
  for (const { injury, visits } of linked) {
    if (visits.length < 2) continue;
    const sorted = byDate(visits);
    const { new_rupture_date } = injury.values;
    for (const milestone of milestones) {
      const first = sorted.find(({ values }) => values[milestone] === "yes");
      const back = sorted.find(
        ({ values }) => first !== undefined && values.date > first.values.date && values[milestone] === "no",
      );
      if (first === undefined || back === undefined) continue;
      if (new_rupture_date !== null && new_rupture_date <= back.values.date) continue;
      yield askAbout(back, {
        code: "visits-go-back",
        severity: "look-at",
        column: milestone,
        found: "no",
        facts: { visit_date: back.values.date, other_date: first.values.date, other_row: first.row },
      });
    }
  }
};

/** A visit at the clinic before the first one. */
export const visitBeforeFirst: LinkRule = function* ({ linked }) {
  for (const { injury, visits } of linked) {
    const first = injury.values.first_visit_date;
    if (first === null) continue;
    for (const row of visits) {
      if (row.values.date >= first || row.values.kind === "phone" || row.values.kind === "form") continue;
      yield askAbout(row, {
        code: "visit-before-first-visit",
        severity: "look-at",
        column: "date",
        found: row.values.date,
        facts: { first_visit_date: first, injury_row: injury.row },
      });
    }
  }
};

/** Follow-up that ended by giving up, without the day: the row would count as one that was lost. */
export const gaveUpWithoutDate: LinkRule = function* ({ tables }) {
  for (const row of tables.injuries) {
    if (row.values.end_status !== "gave_up" || row.values.gave_up_date !== null) continue;
    yield askAbout(row, {
      code: "gave-up-without-date",
      severity: "look-at",
      column: "end_status",
      found: "gave_up",
    });
  }
};

/** A grade that rests on a scan or an operation of which there is no row, where the tables have such rows at all. */
export const gradeWithoutSource: LinkRule = function* ({ tables, linked }) {
  const hasRows = { imaging: tables.imaging.length > 0, treatments: tables.treatments.length > 0 };
  for (const each of linked) {
    const source = each.injury.values.grade_source;
    if (source === null || hasSource(each, source, hasRows)) continue;
    yield askAbout(each.injury, {
      code: "grade-source-without-rows",
      severity: "look-at",
      column: "grade_source",
      found: source,
    });
  }
};

function hasSource(
  { imaging, treatments }: InjuryWithRows,
  source: NonNullable<InjuryWithRows["injury"]["values"]["grade_source"]>,
  hasRows: { readonly imaging: boolean; readonly treatments: boolean },
): boolean {
  switch (source) {
    case "clinical":
      return true;
    case "surgery":
      return !hasRows.treatments || treatments.some(({ values }) => values.treatment === "surgery");
    default:
      return !hasRows.imaging || imaging.some(({ values }) => values.modality === source);
  }
}

/** A level at a visit after the previous level was reached that lies below it, or is none of the scale. */
export const levelAtVisits: LinkRule = function* ({ linked }) {
  for (const { injury, visits } of linked) {
    const { level_scale, level_before, previous_level_date, new_rupture_date } = injury.values;
    if (level_scale === null) continue;
    const before = level_before === null ? null : levelRank(level_before, level_scale);
    for (const row of visits) {
      const { level_now, date } = row.values;
      if (level_now === null) continue;
      const about = { severity: "look-at", column: "level_now", found: level_now } as const;
      const now = levelRank(level_now, level_scale);
      if (now === null) {
        yield askAbout(row, { ...about, code: "level-not-on-scale", facts: { scale: level_scale } });
        continue;
      }
      const isBack = previous_level_date !== null && date >= previous_level_date;
      if (!isBack || before === null || now >= before || new_rupture_date !== null) continue;
      yield askAbout(row, {
        ...about,
        code: "level-below-previous",
        facts: { level_before: level_before ?? "" },
      });
    }
  }
};

/** Several sites of which one does not say what it calls a milestone that it dates. */
export const siteDefinitionMissing: LinkRule = function* ({ tables }) {
  const used = new Set(tables.injuries.map(({ values }) => values.site_id));
  if (used.size < 2) return;
  const ofSite = byKey(tables.injuries, ({ values }) => values.site_id ?? "");
  for (const row of tables.sites) {
    const own = ofSite.get(row.values.site_id) ?? [];
    for (const milestone of milestones) {
      const column = definitionColumns[milestone];
      if (row.values[column] !== null || own.every(({ values }) => values[`${milestone}_date`] === null))
        continue;
      yield askAbout(row, { code: "site-definition-missing", severity: "look-at", column, found: "" });
    }
  }
};
