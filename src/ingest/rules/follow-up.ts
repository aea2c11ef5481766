import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { dateOfDay, dayNumber } from "../../schema/dates.js";
import { fieldsSaying } from "../../schema/field.js";
import type { InjuryRow } from "../../schema/injuries.js";
import { slackOf } from "../../schema/rules/dated.js";
import { type Milestone, milestones } from "../../schema/terms.js";
import { visitRow } from "../../schema/visits.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, enoughForAColumn, type LinkRule } from "./link-rule.js";

/** Between which days a milestone was reached, as far as the injury's row tells; null for an open side. */
function reachedWithin(values: InjuryRow, milestone: Milestone) {
  const date = values[`${milestone}_date`];
  if (date === null) {
    return { from: values[`${milestone}_not_before`], to: values[`${milestone}_not_after`] };
  }
  const slack = slackOf(values[`${milestone}_precision`]);
  return { from: dateOfDay(dayNumber(date) - slack), to: dateOfDay(dayNumber(date) + slack) };
}

/** A visit that says 'not yet' after the dated milestone, or 'yes' before it. */
export const visitContradicts: LinkRule = function* ({ linked }) {
  for (const { injury, visits } of linked) {
    if (visits.length === 0) continue;
    for (const milestone of milestones) {
      if (!visits.some(({ values }) => values[milestone] === "yes" || values[milestone] === "no")) continue;
      const { from, to } = reachedWithin(injury.values, milestone);
      for (const visit of visits) {
        const said = visit.values[milestone];
        const tooLate = said === "no" && to !== null && visit.values.date > to;
        const tooEarly = said === "yes" && from !== null && visit.values.date < from;
        if (!tooLate && !tooEarly) continue;
        yield askAbout(visit, {
          code: "visit-contradicts-milestone",
          severity: "look-at",
          column: milestone,
          found: said,
          facts: {
            visit_date: visit.values.date,
            milestone_date: injury.values[`${milestone}_date`] ?? `${from ?? "?"} to ${to ?? "?"}`,
          },
        });
      }
    }
  }
};

/** Follow-up called completed although neither a milestone nor a visit was recorded. */
export const completedWithoutMilestone: LinkRule = function* ({ linked }) {
  for (const { injury, visits } of linked) {
    if (injury.values.end_status !== "completed" || visits.length > 0) continue;
    const anyMilestone = milestones.some(
      (milestone) =>
        injury.values[`${milestone}_date`] !== null || injury.values[`${milestone}_not_after`] !== null,
    );
    if (anyMilestone) continue;
    yield askAbout(injury, {
      code: "completed-without-milestone",
      severity: "look-at",
      column: "end_status",
      found: "completed",
    });
  }
};

/** Grade 4a or 4b with one pulley, and no complication at any visit. */
export const gradeFourNeedsMore: LinkRule = function* ({ linked }) {
  for (const { injury, visits } of linked) {
    const { grade, pulleys } = injury.values;
    if ((grade !== "4a" && grade !== "4b") || new Set(pulleys).size > 1) continue;
    if (visits.some(({ values: { complication } }) => complication !== null && complication !== "none"))
      continue;
    yield askAbout(injury, {
      code: "grade-4-needs-several-or-complication",
      severity: "look-at",
      column: "grade",
      found: grade,
    });
  }
};

/** Rows of treatments, imaging and visits dated after the last contact. */
export const afterLastContact: LinkRule = function* ({ linked }) {
  for (const { injury, treatments, imaging, visits } of linked) {
    const last = injury.values.last_contact_date;
    yield* laterThan(last, { rows: treatments, column: "start_date" });
    yield* laterThan(last, { rows: treatments, column: "end_date" });
    yield* laterThan(last, { rows: imaging, column: "date" });
    yield* laterThan(last, { rows: visits, column: "date" });
  }
};

const none: readonly DataQuery[] = [];

function laterThan<Column extends string>(
  last: string,
  {
    rows,
    column,
  }: {
    readonly rows: readonly TypedRow<Readonly<Record<Column, string | null>>>[];
    readonly column: Column;
  },
): readonly DataQuery[] {
  const isLate = ({ values }: TypedRow<Readonly<Record<Column, string | null>>>) => {
    const date = values[column];
    return date !== null && date > last;
  };
  // nearly always: no list for nothing
  if (!rows.some(isLate)) return none;
  return rows.filter(isLate).map((row) =>
    askAbout(row, {
      code: "event-after-last-contact",
      severity: "look-at",
      column,
      found: row.values[column],
      facts: { last_contact_date: last },
    }),
  );
}

const zeroToHundred = fieldsSaying(visitRow, { unit: "{score}", maximum: 100 });
const suspiciouslyLow = 10;

/** A column of totals from 0 to 100 in which none reaches 10. */
export const scoreScaleDoubtful: LinkRule = function* ({ tables }) {
  for (const rows of byKey(tables.visits, (row) => row.file).values()) {
    for (const column of zeroToHundred) {
      const totals = rows.map(({ values }) => values[column]).filter((total) => total !== null);
      const highest = totals.reduce((high, total) => Math.max(high, total), 0);
      if (totals.length < enoughForAColumn || highest >= suspiciouslyLow) continue;
      yield askAboutColumn(rows[0]!, {
        code: "score-scale-doubtful",
        column,
        found: String(highest),
        facts: {},
      });
    }
  }
};
