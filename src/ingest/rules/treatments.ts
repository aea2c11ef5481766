import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { daysBetween } from "../../schema/dates.js";
import type { TreatmentRow } from "../../schema/treatments.js";
import { byKey, type LinkRule } from "./link-rule.js";

type Episode = TypedRow<TreatmentRow>;

/** Operations closer than this are asked about as one (our choice, in days). */
const sameOperationWithin = 14;

type Dated = TypedRow<TreatmentRow & { readonly start_date: string }>;

const isDated = (row: Episode): row is Dated => row.values.start_date !== null;

const byStart = (rows: readonly Episode[]): readonly Dated[] =>
  rows
    .filter(isDated)
    .sort((one, other) => daysBetween(other.values.start_date, one.values.start_date) || one.row - other.row);

/** Surgery after an injury of grade 1. */
export const surgeryInGrade1: LinkRule = function* ({ linked }) {
  for (const { injury, treatments } of linked) {
    if (injury.values.grade !== "1") continue;
    for (const row of treatments) {
      if (row.values.treatment !== "surgery") continue;
      yield askAbout(row, {
        code: "surgery-in-grade-1",
        severity: "look-at",
        column: "treatment",
        found: "surgery",
      });
    }
  }
};

/** Two operations on one injury within 14 days. */
export const surgeryTwice: LinkRule = function* ({ linked }) {
  for (const { treatments } of linked) {
    if (treatments.length < 2) continue;
    const surgeries = byStart(treatments.filter(({ values }) => values.treatment === "surgery"));
    for (const [place, row] of surgeries.slice(1).entries()) {
      const before = surgeries[place]!;
      if (daysBetween(before.values.start_date, row.values.start_date) > sameOperationWithin) continue;
      yield askAboutStart(row, { code: "surgery-twice", other: before });
    }
  }
};

/** Episodes of the same treatment and kind that overlap; an episode without an end goes on. */
export const treatmentOverlaps: LinkRule = function* ({ linked }) {
  for (const { treatments } of linked) {
    if (treatments.length < 2) continue;
    const episodes = treatments.filter(
      ({ values }) => values.treatment !== "surgery" && values.treatment !== "not_stated",
    );
    const sameTreatment = byKey(episodes, ({ values }) => `${values.treatment}\n${values.kind ?? ""}`);
    for (const group of sameTreatment.values()) yield* overlapsWithin(byStart(group));
  }
};

function* overlapsWithin(episodes: readonly Dated[]): Iterable<DataQuery> {
  let longest: Dated | undefined;
  for (const row of episodes) {
    if (longest !== undefined && (longest.values.end_date ?? "9999") > row.values.start_date) {
      yield askAboutStart(row, { code: "same-treatment-overlaps", other: longest });
    }
    const lastsLonger = (longest?.values.end_date ?? "9999") < (row.values.end_date ?? "9999");
    if (longest === undefined || lastsLonger) longest = row;
  }
}

const askAboutStart = (
  row: Dated,
  { code, other }: { code: "surgery-twice" | "same-treatment-overlaps"; other: Episode },
): DataQuery =>
  askAbout(row, {
    code,
    severity: "look-at",
    column: "start_date",
    found: row.values.start_date,
    facts: { other_row: other.row },
  });
