import { type ImagingRow, imagingRow } from "../imaging.js";
import type { InjuryRow } from "../injuries.js";
import type { SiteRow } from "../sites.js";
import { type TreatmentRow, treatmentRow } from "../treatments.js";
import { type VisitRow, visitRow } from "../visits.js";
import { datedColumns, notInFuture } from "./dated.js";
import { injuryDateRules } from "./injury-dates.js";
import { injuryGradeRules } from "./injury-grades.js";
import { injuryPlausibilityRules } from "./injury-plausibility.js";
import type { RowRule } from "./row-rule.js";

const treatmentRules: readonly RowRule<TreatmentRow>[] = [
  {
    code: "episode-inside-out",
    severity: "set-aside",
    check: ({ start_date, end_date }) =>
      start_date === null || end_date === null || end_date >= start_date
        ? null
        : { column: "end_date", found: end_date, facts: { start_date } },
  },
  {
    code: "treatment-without-start",
    severity: "look-at",
    check: ({ treatment, start_date }) =>
      start_date === null ? { column: "treatment", found: treatment } : null,
  },
  ...notInFuture(datedColumns(treatmentRow)),
  {
    code: "worn-more-than-prescribed",
    severity: "look-at",
    check: ({ hours_per_day, hours_per_day_worn }) =>
      hours_per_day === null || hours_per_day_worn === null || hours_per_day_worn <= hours_per_day
        ? null
        : { column: "hours_per_day_worn", found: hours_per_day_worn, facts: { hours_per_day } },
  },
];

/** The rules that concern one row, by table; those that set a row aside come first. */
export const rowRules: {
  readonly injuries: readonly RowRule<InjuryRow>[];
  readonly treatments: readonly RowRule<TreatmentRow>[];
  readonly imaging: readonly RowRule<ImagingRow>[];
  readonly visits: readonly RowRule<VisitRow>[];
  readonly sites: readonly RowRule<SiteRow>[];
} = {
  injuries: [...injuryDateRules, ...injuryGradeRules, ...injuryPlausibilityRules],
  treatments: treatmentRules,
  imaging: notInFuture(datedColumns(imagingRow)),
  visits: notInFuture(datedColumns(visitRow)),
  sites: [],
};
