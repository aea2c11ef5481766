import type { OutcomeRecord } from "../../cohort/record.js";
import { derivedVariables } from "../../schema/derived-variables.js";
import type { Field } from "../../schema/field.js";
import type { InjuryRow } from "../../schema/injuries.js";
import { tables } from "../../schema/tables.js";
import { notKnown, recordedTreatments } from "../../schema/terms.js";
import { groupValue } from "../../study/groups.js";
import { neededFields } from "../../study/needed-fields.js";
import type { Plan } from "../../study/plan.js";
import type { Analysed } from "./analysed.js";
import { numbersOf } from "./numbers.js";
import type { ExactField } from "./site-description.js";

type Derived = keyof typeof derivedVariables;

/** Described of every site: what a grade rests on, and when people come. */
const always = ["injury_date", "grade", "grade_source", "delay_days"] as const;

/**
 * The fields that the question uses, in the order of their tables, then what is derived: what each means, of how many injuries
 * it is known, and how its values are distributed. The site itself is left out: a description is of one.
 */
export function describedFields(analysed: readonly Analysed[], plan: Plan): ExactField[] {
  const hasImaging = analysed.some(({ linked }) => linked.imaging.length > 0);
  const wanted = new Set([...fieldsOf(plan), ...(hasImaging ? ["distance_loaded_first"] : [])]);
  const { injuries, treatments } = tables;
  return [
    ...(injuries.fields as readonly Field[])
      .filter(({ name }) => wanted.has(name))
      .map((field) => ofInjury(field, analysed)),
    ...(wanted.has("start_date")
      ? (treatments.fields as readonly Field[])
          .filter(({ name }) => name === "start_date")
          .map((field) => startOfTreatment(field, analysed))
      : []),
    ...(Object.keys(derivedVariables) as Derived[])
      .filter((name) => wanted.has(name))
      .map((name) => derived(name, analysed)),
  ];
}

function fieldsOf(plan: Plan): readonly string[] {
  const { question, compare } = plan;
  const ofTreatment = compare.by === "first_treatment" || question.clock === "treatment_start";
  const ofFirstVisit = question.clock === "first_visit" || question.entry === "first_visit";
  return [
    ...always,
    ...neededFields(plan).filter((field) => field !== "site_id"),
    ...(compare.within === null ? [] : [compare.within]),
    `${question.milestone}_date`,
    ...(ofTreatment ? ["first_treatment", "start_date"] : []),
    ...(ofFirstVisit ? ["first_visit_date"] : []),
  ];
}

const aboutField = ({ name, description, unit, terms, blankSays }: Field) => ({
  field: name,
  definition: description,
  unit: unit ?? null,
  terms: terms === undefined ? null : [...terms],
  blank_says: blankSays ?? null,
});

const sayUnknown: ReadonlySet<unknown> = new Set(notKnown);
const isKnown = (value: unknown): boolean => value !== null && !sayUnknown.has(value);

/** A column of the injuries. */
function ofInjury(field: Field, analysed: readonly Analysed[]): ExactField {
  const values = analysed.map(({ linked }) => linked.injury.values[field.name as keyof InjuryRow]);
  return {
    ...aboutField(field),
    table: "injuries",
    n: values.length,
    known: values.filter(isKnown).length,
    counts: field.terms === undefined ? null : countsOfTerms(values.flat(), field.terms),
    numbers:
      field.kind === "integer" || field.kind === "number"
        ? numbersOf(values.filter((value) => typeof value === "number"))
        : null,
  };
}

const startOfTreatment = (field: Field, analysed: readonly Analysed[]): ExactField => {
  const treated = analysed.filter(({ record }) => firstTreatmentOf(record) !== null);
  return {
    ...aboutField(field),
    table: "treatments",
    n: treated.length,
    known: treated.filter(
      ({ record }) => record.firstTreatmentDay !== null && !record.isTreatmentStartAssumed,
    ).length,
    counts: null,
    numbers: null,
  };
};

const firstTreatmentOf = (record: OutcomeRecord): string | null => groupValue(record, "first_treatment");

/** What is derived from several tables. */
function derived(name: Derived, analysed: readonly Analysed[]): ExactField {
  const { label, unit } = derivedVariables[name];
  const about = {
    field: name,
    table: null,
    definition: label,
    unit,
    blank_says: null,
    n: analysed.length,
  } satisfies Partial<ExactField>;
  if (name === "first_treatment") {
    const values = analysed.map(({ record }) => firstTreatmentOf(record));
    const terms = [...new Set([...recordedTreatments, ...values.filter((value) => value !== null)])];
    const counts = countsOfTerms(values, terms);
    return {
      ...about,
      terms: [...recordedTreatments],
      known: values.filter(isKnown).length,
      counts,
      numbers: null,
    };
  }
  const values = analysed.map(({ record }) => record.covariates[name]).filter((value) => value !== null);
  return { ...about, terms: null, known: values.length, counts: null, numbers: numbersOf(values) };
}

/** How often each term occurs, in the order of the terms; those that do not occur are left out. */
function countsOfTerms(values: readonly unknown[], terms: readonly string[]): { code: string; n: number }[] {
  const counts = terms.map((code) => ({ code, n: values.filter((value) => value === code).length }));
  return counts.filter(({ n }) => n > 0);
}
