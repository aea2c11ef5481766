import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { unitInWords } from "../../../schema/unit-words.js";
import type { ColumnRule, Undecided } from "../mapping.js";
import { readPulleys } from "../read-pulleys.js";
import type { FileOrder } from "./date-orders.js";
import { orderEvidence } from "./date-orders.js";
import type { Guess } from "./guess.js";
import { cellsWith, rangeQuestion } from "./mixed-columns.js";
import { unitOf } from "./numbers.js";
import { exampleOf, type Profile } from "./profile.js";
import { timesOf } from "./times.js";
import { valuesOf, wordsInDates } from "./values.js";

/** How the cells of a guessed column are read, and what has to be asked about them. */
export interface Readings {
  readonly guess: Guess;
  readonly questions: readonly Undecided[];
}

/** Adds to a guess how its cells are read: words, unit, order of dates. */
export function withReadings(
  guess: Guess,
  { profile, order }: { readonly profile: Profile; readonly order: FileOrder },
): Readings {
  switch (guess.field.kind) {
    case "choice":
    case "list":
      return withValues(guess, profile);
    case "number":
    case "integer":
    case "bounded":
      return withUnit(guess, profile);
    case "date":
    case "period":
      return withDateOrder(guess, { profile, order });
    default:
      return { guess, questions: [] };
  }
}

const adding = (guess: Guess, rule: Partial<ColumnRule>, evidence: readonly string[] = []): Guess => ({
  ...guess,
  rule: { ...guess.rule, ...rule },
  evidence: [...guess.evidence, ...evidence],
});

const hasAny = (values: Readonly<Record<string, string>>): boolean => Object.keys(values).length > 0;

function withValues(guess: Guess, profile: Profile): Readings {
  const { field } = guess;
  // asked about once for all columns that read them
  if (guess.rule.mixed !== undefined) return { guess, questions: [] };
  const { values, open, numbered } = valuesOf(profile, field);
  const rule = {
    ...(hasAny(values) ? { values } : {}),
    ...(numbered === null || numbered === "ask" ? {} : { numbered }),
  };
  const ranges = open.filter(({ cell }) => isRange(cell, field));
  const aboutRanges =
    ranges.length < 2
      ? []
      : [
          rangeQuestion(profile, {
            decides: [["columns", field.name, "ranges"]],
            ...cellsWith(profile, (cell) => isRange(cell, field)),
          }),
        ];
  const one = aboutRanges.length === 0 ? open : open.filter((each) => !ranges.includes(each));
  const questions = one.map(
    ({ cell, times, choices }): Undecided => ({
      question: `What does "${cell}" in the column "${profile.name}" mean for ${field.name}? It appears in ${counted(times, "row", "rows")}.`,
      decides: [["columns", field.name, "values", cell]],
      example: cell,
      choices,
    }),
  );
  const aboutCounting = numbered === "ask" ? [questionAboutCounting(field, profile)] : [];
  const evidence = numbered === "with_thumb" ? ["a fifth finger occurs, so the thumb is counted"] : [];
  return {
    guess: adding(guess, rule, evidence),
    questions: [...aboutCounting, ...aboutRanges, ...questions],
  };
}

/** Whether a cell names pulleys by a range that could mean two things. */
const isRange = (cell: string, { cells }: Field): boolean =>
  cells === "pulleys" && readPulleys(cell) === null && readPulleys(cell, "ends") !== null;

const questionAboutCounting = (field: Field, profile: Profile): Undecided => ({
  question: `The column "${profile.name}" numbers the fingers. Is the thumb counted?`,
  decides: [["columns", field.name, "numbered"]],
  ...exampleOf({
    ...profile,
    distinct: new Map([...profile.distinct].filter(([cell]) => /[1-5]|i|v/i.test(cell))),
  }),
  choices: { with_thumb: "4 is the ring finger", without_thumb: "4 is the little finger" },
});

function withUnit(guess: Guess, profile: Profile): Readings {
  const found = unitOf(profile, guess.field);
  if (found === null) return { guess, questions: [] };
  if (found.unit !== null) {
    const rule = found.unit === guess.field.unit ? {} : { unit: found.unit };
    return { guess: adding(guess, rule, [found.evidence]), questions: [] };
  }
  const question: Undecided = {
    question: `In what unit are the numbers of the column "${profile.name}"? ${capital(found.evidence)}.`,
    decides: [["columns", guess.field.name, "unit"]],
    ...exampleOf(profile),
    choices: Object.fromEntries(
      found.choices.map((unit) => [unit, `the numbers are in ${unitInWords(unit)}`]),
    ),
  };
  return { guess: adding(guess, {}, [found.evidence]), questions: [question] };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

function withDateOrder(
  guess: Guess,
  { profile, order }: { readonly profile: Profile; readonly order: FileOrder },
): Readings {
  const { values, open } = wordsInDates(profile, guess.field);
  const questionsAbout = (cells: typeof open) =>
    cells.map(
      ({ cell, times, choices }): Undecided => ({
        question: `What does "${cell}" in the column "${profile.name}" mean? It appears in ${counted(times, "row", "rows")}.`,
        decides: [["columns", guess.field.name, "values", cell]],
        example: cell,
        choices,
      }),
    );
  const exception = order.exceptions.find((each) => each.profile === profile);
  const rule = {
    ...(hasAny(values) ? { values } : {}),
    ...(exception === undefined ? {} : { date_order: exception.order }),
  };
  const { dayFirst, monthFirst } = orderEvidence(profile);
  const times = timesOf(profile, guess.field, order);
  const evidence = [
    ...(exception === undefined
      ? []
      : [
          `${exception.order}, unlike other columns: ${counted(Math.max(dayFirst, monthFirst), "cell allows", "cells allow")} nothing else`,
        ]),
    ...times.evidence,
  ];
  const mixed: Undecided[] = order.mixed.includes(profile)
    ? [
        {
          question: `The column "${profile.name}" has dates that can only be day-first and dates that can only be month-first. Which comes first in the others?`,
          decides: [["columns", guess.field.name, "date_order"]],
          choices: {
            "day-first": "day first; dates that cannot be read so raise a query",
            "month-first": "month first; dates that cannot be read so raise a query",
            "year-first": "not known: raise a query about every date that does not put the year first",
          },
        },
      ]
    : [];
  return {
    guess: adding(guess, { ...rule, ...times.rule }, evidence),
    questions: [...mixed, ...times.questions, ...questionsAbout(open)],
  };
}
