import type { Plan } from "./plan.js";

/** Fields that the study compares by or adjusts for, or chooses injuries by. */
export const neededFields = ({ compare, who }: Plan): readonly string[] => [
  ...new Set([
    ...(compare.by === "first_treatment" ? [] : [compare.by]),
    ...compare.adjust_for,
    ...(Object.keys(fieldsOfCriteria) as (keyof Plan["who"])[])
      .filter((criterion) => who[criterion] !== undefined)
      .map((criterion) => fieldsOfCriteria[criterion]),
  ]),
];

/** The field by which each criterion chooses injuries. */
const fieldsOfCriteria: Readonly<Record<keyof Plan["who"], string>> = {
  sites: "site_id",
  grades: "grade",
  pulleys: "pulleys",
  extents: "pulley_extents",
  fingers: "finger",
  age: "age_at_injury",
  first_visit_within_days: "first_visit_date",
};
