import { cellReaderOf } from "../../schema/cells/read-cell.js";
import type { Field } from "../../schema/field.js";
import { labelOf } from "../../schema/labels.js";
import { nearest } from "../../schema/near.js";
import { unitsFor } from "./apply/units.js";
import { askAnswer, blankAnswer, type Mapping, type Undecided } from "./mapping.js";
import { meaningKey, notUsedAnswer } from "./meaning.js";
import { comparedText } from "./plain-words.js";
import { tableOf } from "./table-of.js";

/** An answer as the mapping keeps it, or what was expected in its place. */
export type FreeAnswer = { readonly answer: string } | { readonly expected: string };

/** What may be answered besides the choices. */
interface Open {
  /** In words, to follow "Enter a number or". */
  readonly hint: string;
  readonly take: (text: string) => string | null;
  /** All that may be answered, where that is a list. */
  readonly names: readonly string[];
}

/**
 * Takes an answer to a question: one of its choices, or anything else that can stand in its place, whatever was proposed:
 * any column of the toolkit for what a column of the file holds, any column of the file for what a column of the toolkit
 * comes from, any value that the column may hold for what a cell means.
 */
export function takeAnswer(
  question: Undecided,
  { text, mapping }: { readonly text: string; readonly mapping: Mapping },
): FreeAnswer {
  const choices = Object.keys(question.choices);
  if (choices.includes(text)) return { answer: text };
  const open = openTo(question, mapping);
  const answer = open?.take(text) ?? null;
  if (answer !== null) return { answer };
  const names = [...choices, ...(open?.names ?? [])];
  const near = nearest(text, names);
  const meant = near === null ? "" : `Did you mean "${near}"? `;
  return {
    expected: `${meant}Write one of: ${choices.join(", ")}${open === null ? "" : `; or ${open.hint}`}.`,
  };
}

/** What may be answered besides the choices, in words; null where the choices are all there is. */
export const freeAnswerHint = (question: Undecided, mapping: Mapping): string | null =>
  openTo(question, mapping)?.hint ?? null;

/** One answer for several columns of ours is one of those proposed. */
function openTo({ decides, choices }: Undecided, mapping: Mapping): Open | null {
  if (decides.length > 1) return null;
  const [first, second = "", third] = decides[0] ?? [];
  const { fields } = tableOf(mapping);
  if (first === meaningKey) return amongFields(fields);
  if (first !== "columns") return null;
  const field = fields.find(({ name }) => name === second);
  if (third === "from") return amongColumns(mapping.seen?.columns ?? []);
  if (field === undefined) return null;
  if (third === "values")
    return field.terms?.every((term) => Object.hasOwn(choices, term)) ? null : amongValues(field);
  return third === "unit" ? amongUnits(field) : null;
}

const amongFields = (fields: readonly Field[]): Open => ({
  hint: "the name of any column of the toolkit",
  names: fields.map(({ name }) => name),
  take: (text) => {
    const wanted = comparedText(text);
    if (wanted === "none") return notUsedAnswer;
    return (
      fields.find(({ name }) => [name, labelOf(name)].some((each) => comparedText(each) === wanted))?.name ??
      null
    );
  },
});

const amongColumns = (columns: readonly string[]): Open => ({
  hint: "the name of any column of the file",
  names: columns,
  take: (text) => columns.find((name) => comparedText(name) === comparedText(text)) ?? null,
});

function amongValues(field: Field): Open {
  const read = cellReaderOf(field);
  return {
    hint: field.terms === undefined ? `a value like ${field.example}` : `any of: ${field.terms.join(", ")}`,
    names: field.terms ?? [],
    take: (text) => {
      if (text === blankAnswer || text === askAnswer) return text;
      const reading = read(text);
      if ("problem" in reading || reading.value === null) return null;
      return Array.isArray(reading.value) ? reading.value.join("|") : String(reading.value);
    },
  };
}

const amongUnits = ({ unit }: Field): Open => ({
  hint: `any of: ${unitsFor(unit).join(", ")}`,
  names: unitsFor(unit),
  take: (text) => (unitsFor(unit).includes(text) ? text : null),
});
