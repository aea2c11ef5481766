import type { DataValidation } from "@cj-tech-master/excelts";
import { yearsOfDates } from "../schema/cells/day.js";
import type { Field } from "../schema/index.js";
import { longestName } from "../schema/limits.js";
import { dayOnly, expectation } from "./column-words.js";

/** Where the check of a column looks. */
export interface CheckedColumn {
  /** The first cell below the header, such as B2. */
  readonly cell: string;
  /** The column without its rows, such as $B:$B. */
  readonly column: string;
  /** The range in which the words of the column stand, where it has words. */
  readonly words: string | null;
  /** Whether a text may stand in it once. */
  readonly isUnique: boolean;
}

type Condition = Pick<DataValidation, "type"> & {
  readonly operator?: string;
  readonly formulae?: readonly unknown[];
};

/** What a spreadsheet lets one write into the cells of a column, from what the field says; null where anything goes. */
export function cellCheck(field: Field, at: CheckedColumn): DataValidation | null {
  const condition = conditionOf(field, at);
  if (condition === null) return null;
  const expected = at.isUnique ? "A name that no other row has." : (expectation(field) ?? nameExpected);
  // a list of words cannot say that several may stand in a cell: it offers them and refuses nothing
  const isStrict = field.kind !== "list";
  return {
    ...condition,
    allowBlank: true,
    showErrorMessage: isStrict,
    ...(isStrict ? { errorStyle: "stop", errorTitle: titleOf(field), error: expected } : {}),
    ...(needsHint.has(field.kind)
      ? { showInputMessage: true, promptTitle: titleOf(field), prompt: hint(field, expected) }
      : {}),
  } as DataValidation;
}

const needsHint: ReadonlySet<Field["kind"]> = new Set(["period", "bounded", "list", "date"]);

const hint = ({ kind }: Field, expected: string): string =>
  kind === "date" ? `${expected} ${dayOnly}` : expected;

const nameExpected = `A name of ${longestName} letters at most.`;

/** A title of a message holds 32 letters. */
const titleOf = ({ name }: Field): string => name.slice(0, 32);

function conditionOf(field: Field, { cell, column, words, isUnique }: CheckedColumn): Condition | null {
  const { minimum, maximum } = field;
  switch (field.kind) {
    case "date":
      return { type: "date", operator: "between", formulae: daysOfDates };
    case "period":
      return { type: "custom", formulae: [periodFormula(cell, !field.required)] };
    case "number":
      return { type: "decimal", operator: "between", formulae: [minimum, maximum] };
    case "integer":
      return { type: "whole", operator: "between", formulae: [minimum, maximum] };
    case "bounded":
      return {
        type: "custom",
        formulae: [
          `OR(AND(ISNUMBER(${cell}),${cell}>=${minimum},${cell}<=${maximum}),LEFT(${cell},1)=">",LEFT(${cell},1)="<")`,
        ],
      };
    case "choice":
    case "list":
      return { type: "list", formulae: [words] };
    case "identifier":
      return isUnique
        ? { type: "custom", formulae: [`AND(COUNTIF(${column},${cell})=1,LEN(${cell})<=${longestName})`] }
        : { type: "textLength", operator: "lessThanOrEqual", formulae: [longestName] };
    case "text":
      return null;
  }
}

const daysOfDates = [
  new Date(Date.UTC(yearsOfDates.from, 0, 1)),
  new Date(Date.UTC(yearsOfDates.to, 11, 31)),
] as const;

/** A day that was pasted as one, or a text that begins with a year and a hyphen and is as long as one of the forms. */
function periodFormula(cell: string, mayBeLater: boolean): string {
  const text = mayBeLater ? `SUBSTITUTE(${cell},">","")` : cell;
  const year = `VALUE(LEFT(${text},4))`;
  const { from, to } = yearsOfDates;
  const hasLength = `ISNUMBER(SEARCH("|"&LEN(${text})&"|","|7|8|10|21|"))`;
  return `OR(ISNUMBER(${cell}),AND(MID(${text},5,1)="-",${year}>=${from},${year}<=${to},${hasLength}))`;
}
