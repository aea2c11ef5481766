import { cellReaderOf } from "../../schema/cells/read-cell.js";
import type { Field } from "../../schema/field.js";
import { nearest } from "../../schema/near.js";
import { checkSettings, readSettings } from "../../schema/settings/read-settings.js";
import { SettingsError, type SettingsProblem } from "../../schema/settings/settings-error.js";
import { type Path, type Place, pathText } from "../../schema/settings/settings-problems.js";
import { tables } from "../../schema/tables.js";
import { unitInWords } from "../../schema/unit-words.js";
import { isAge } from "./apply/age-text.js";
import { unitFactor, unitsFor } from "./apply/units.js";
import { takeAnswer } from "./free-answer.js";
import {
  askAnswer,
  blankAnswer,
  type ColumnRule,
  type Mapping,
  mappingSchema,
  sourcesOf,
  type Undecided,
} from "./mapping.js";
import { meaningKey } from "./meaning.js";
import { settleQuestion } from "./settle.js";
import { tableOf } from "./table-of.js";

/** A mapping that cannot be followed: every problem at once, in the order of the file. */
export class MappingError extends SettingsError {
  override readonly name = "MappingError";
}

type Say = (path: Path, expected: string, correction: string) => void;

/**
 * Reads a mapping.
 *
 * @param file name of the file, for messages
 * @param text its text, YAML 1.2
 * @param options undecided: whether open questions are a problem (they are, before the mapping is used) or handed on
 * @returns the mapping with every default filled in, and every answered question settled
 * @throws MappingError with all problems at once, each with its line and column
 */
export function readMapping(
  { file, text }: { readonly file: string; readonly text: string },
  { undecided = "refused" }: { readonly undecided?: "refused" | "kept" } = {},
): Mapping {
  const { value, problems, place } = readSettings<Mapping>(text, mappingFile);
  if (value === null) throw new MappingError(file, problems);
  const found: SettingsProblem[] = [];
  const say = sayer(found, place);
  const settled = settleAnswered(value, { say, undecided });
  const ofAnswers = checkSettings<Mapping>(settled, mappingFile).problems;
  for (const problem of ofAnswers) found.push({ ...problem, ...place(["undecided"]) });
  if (ofAnswers.length === 0) checkColumns(settled, { say, undecided });
  if (found.length > 0) throw new MappingError(file, found);
  return settled;
}

const mappingFile = { schema: mappingSchema, what: "a mapping" };

const sayer =
  (problems: SettingsProblem[], place: Place): Say =>
  (path, expected, correction) =>
    problems.push({ ...place(path), at: pathText(path), expected, correction });

interface Checking {
  readonly say: Say;
  readonly undecided: "refused" | "kept";
}

function settleAnswered(mapping: Mapping, { say, undecided }: Checking): Mapping {
  let settled = mapping;
  for (const [place, question] of mapping.undecided.entries()) {
    const path = ["undecided", place];
    const answer = question.answer ?? null;
    const twice = answer === null ? null : givenTwice(question, { answer, settled });
    const foreign = question.decides.find((keys) => !takesAnAnswer(keys));
    if (foreign !== undefined) {
      say(
        [...path, "decides"],
        `${pathText(foreign)} is not a key that an answer can be written to.`,
        "Write a key of a column, for example [columns, grade, from], or one of date_order, day_numbers_from, decimal_sign.",
      );
    } else if (twice !== null) {
      const other = 'Answer "not_used" for one of them, or edit "columns" yourself.';
      say([...path, "answer"], `${answer} already comes from ${twice}.`, other);
    } else if (answer !== null) {
      const taken = takeAnswer(question, { text: answer, mapping: settled });
      if ("expected" in taken)
        say([...path, "answer"], `"${answer}" is not a possible answer.`, taken.expected);
      else if (undecided === "refused" && needsReading(question, { answer: taken.answer, mapping }))
        say(
          [...path, "answer"],
          `${taken.answer} was not among the choices, so that it is not settled how its cells are read.`,
          'Run "pulley-outcomes fit" again with this mapping (--mapping).',
        );
      else settled = settleQuestion(settled, { question, answer: taken.answer });
    } else if (undecided === "refused")
      say(path, `has no answer yet: ${question.question}`, howToAnswer(question));
  }
  return settled;
}

/** Whether the cells of a column chosen freely may be in a unit, or be times, which nobody has looked at yet. */
function needsReading(
  { decides, choices }: Undecided,
  { answer, mapping }: { readonly answer: string; readonly mapping: Mapping },
): boolean {
  if (decides[0]?.[0] !== meaningKey || Object.hasOwn(choices, answer)) return false;
  const field = tableOf(mapping).fields.find(({ name }) => name === answer);
  return field !== undefined && (field.unit !== undefined || field.kind === "period");
}

const keysForAnswers = ["one_row", "date_order", "day_numbers_from", "decimal_sign"];

/** Whether an answer, which is a word, can stand where a question says. */
function takesAnAnswer([first = "", second, third, fourth, ...more]: readonly string[]): boolean {
  if (keysForAnswers.includes(first)) return second === undefined;
  if (second === undefined || more.length > 0) return false;
  if (first === "injuries_in_row") return second === "read" && third === undefined;
  if (first === "day_of_scan") return ["first", "last"].includes(second) && third === undefined;
  if (first === meaningKey || first === "leave_out_rows") return third === undefined;
  if (first !== "columns" || third === undefined) return false;
  return (third === "values" || third === "mixed") === (fourth !== undefined);
}

/** The other column, in words, where an answer would give a field a second one; else null. */
function givenTwice(
  { decides }: Undecided,
  { answer, settled }: { readonly answer: string; readonly settled: Mapping },
): string | null {
  const [kind, name] = decides[0] ?? [];
  if (kind !== meaningKey) return null;
  const others = sourcesOf(settled.columns[answer] ?? {}).filter((other) => other !== name);
  return others.length === 0 ? null : others.map((other) => `"${other}"`).join(", ");
}

const howToAnswer = ({ choices }: Undecided): string =>
  `Add "answer:" with one of: ${Object.keys(choices).join(", ")}.`;

function checkColumns(mapping: Mapping, { say, undecided }: Checking): void {
  const { fields } = tableOf(mapping);
  if (mapping.one_row === "visit" && mapping.table !== "single_sheet") {
    say(["one_row"], "can be visit only in a single sheet.", "Remove it.");
    return;
  }
  const names = fields.map(({ name }) => name);
  if (isOfOtherForm(mapping)) {
    say(
      ["one_row"],
      `says that a row is ${mapping.one_row === "visit" ? "a visit" : "an injury"}, but the columns below are for a sheet in which it is not.`,
      'Run "pulley-outcomes fit" again with this mapping (--mapping): the columns are then proposed again.',
    );
    return;
  }
  for (const [name, rule] of Object.entries(mapping.columns)) {
    const field = fields.find((each) => each.name === name);
    if (field === undefined) {
      const near = nearest(name, names);
      const meant = near === null ? "" : `Did you mean "${near}"? `;
      say(
        ["columns", name],
        `is not a column of the table ${mapping.table}.`,
        `${meant}The columns are: ${names.join(", ")}.`,
      );
    } else checkRule(rule, { field, say });
  }
  if (undecided === "kept" && mapping.undecided.length > 0) return;
  for (const { name, required, description } of fields) {
    if (required && mapping.columns[name] === undefined) {
      say(
        ["columns"],
        `does not include "${name}", which every row needs.`,
        `Add it: ${name}: { from: COLUMN } (${description.split(";")[0]}).`,
      );
    }
  }
}

/** Whether some columns belong to the other form of the single sheet: the answer to what a row is has changed it. */
function isOfOtherForm({ table, one_row, columns }: Mapping): boolean {
  if (table !== "single_sheet") return false;
  const isIn = (form: Mapping["one_row"]) => {
    const names = new Set(tableOf({ table, one_row: form }).fields.map(({ name }) => name));
    return (name: string) => names.has(name);
  };
  const [here, there] =
    one_row === "visit" ? [isIn("visit"), isIn("injury")] : [isIn("injury"), isIn("visit")];
  return Object.keys(columns).some((name) => !here(name) && there(name));
}

const origins = ["from", "ticked", "latest_of", "born_on", "born_in", "constant"] as const;

function checkRule(rule: ColumnRule, { field, say }: { readonly field: Field; readonly say: Say }): void {
  const path = ["columns", field.name];
  const given = origins.filter((origin) => rule[origin] !== undefined);
  if (given.length !== 1) {
    const expected =
      given.length === 0
        ? "does not say where it comes from."
        : `has ${given.join(" and ")}, but needs exactly one of them.`;
    say(path, expected, `Write one of: ${origins.join(", ")}.`);
  }
  const isDated = field.kind === "date" || field.kind === "period";
  if (rule.latest_of !== undefined && !isDated) {
    say(
      [...path, "latest_of"],
      "can only be used for dates.",
      'Write "from" with the columns: the first that is not blank is used.',
    );
  }
  if (rule.ticked !== undefined && field.kind !== "list") {
    say([...path, "ticked"], "can only be used for lists.", 'Write "from" with the column.');
  }
  for (const birth of ["born_on", "born_in"] as const) {
    if (rule[birth] !== undefined && !isAge(field))
      say([...path, birth], "can only be used for the age.", 'Write "from" with the column.');
  }
  for (const [entry] of Object.entries(rule.ticked ?? {})) {
    const known = tables.injuries.fields.find(({ name }) => name === "pulleys")?.terms ?? [];
    if (!known.includes(entry))
      say([...path, "ticked", entry], "is not a pulley.", `Write one of: ${known.join(", ")}.`);
  }
  checkUnit(rule, { field, say });
  checkValues(rule, { field, say });
}

function checkUnit({ unit }: ColumnRule, { field, say }: { readonly field: Field; readonly say: Say }): void {
  if (unit === undefined) return;
  const path = ["columns", field.name, "unit"];
  if (field.unit === undefined) say(path, "can only be used for quantities.", "Remove it.");
  else if (unitFactor(unit, field.unit) === null) {
    say(
      path,
      `"${unit}" cannot be converted to ${unitInWords(field.unit)}.`,
      `Write one of: ${unitsFor(field.unit).join(", ")}.`,
    );
  }
}

/** What a cell means must itself be readable. */
function checkValues(rule: ColumnRule, { field, say }: { readonly field: Field; readonly say: Say }): void {
  const read = cellReaderOf(field);
  const meanings = [
    ...Object.entries(rule.values ?? {}).map(([cell, meaning]) => [["values", cell], meaning] as const),
    ...(rule.constant === undefined ? [] : [[["constant"], rule.constant] as const]),
  ];
  for (const [keys, meaning] of meanings) {
    if (meaning === blankAnswer || meaning === askAnswer) continue;
    const reading = read(meaning);
    if ("value" in reading) continue;
    const terms = field.terms ?? [];
    const near = nearest(meaning, terms);
    const meant = near === null ? "" : `Did you mean "${near}"? `;
    const allowed = terms.length > 0 ? `one of: ${terms.join(", ")}` : `a value like ${field.example}`;
    say(
      ["columns", field.name, ...keys],
      `"${meaning}" is not a possible value of ${field.name}.`,
      `${meant}Write ${allowed}. Write ${blankAnswer} for a blank cell, or ${askAnswer} for a query about each row.`,
    );
  }
}
