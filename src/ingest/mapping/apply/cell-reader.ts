import { cellReaderOf } from "../../../schema/cells/read-cell.js";
import type { Field } from "../../../schema/field.js";
import { askAnswer, blankAnswer, type ColumnRule, type Mapping } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { codedReader } from "./coded-text.js";
import { dateText } from "./date-text.js";
import { numberText } from "./number-text.js";

/** A cell of the file in our text, and whether the mapping knew it. */
export interface CellRead {
  readonly text: string;
  /** How a coded cell was read that the mapping does not list; null where it lists it or lists none. */
  readonly news: "by vocabulary" | "not" | null;
}

/**
 * The reader of a mapped column: cells of the file, clean and not blank, as our text.
 * What cannot be read stays as it is written: typing the row then asks about it.
 */
export function mappedReader(
  field: Field,
  { rule, mapping }: { readonly rule: ColumnRule; readonly mapping: Mapping },
): (cell: string) => CellRead {
  const values = new Map(Object.entries(rule.values ?? {}).map(([cell, text]) => [comparedText(cell), text]));
  const convert = converterOf(field, { rule, mapping });
  const readable = cellReaderOf(field);
  const isCoded = field.kind === "choice" || field.kind === "list";
  return (cell) => {
    const listed = values.get(comparedText(cell));
    if (listed === askAnswer) return { text: "value" in readable(cell) ? `? ${cell}` : cell, news: null };
    if (listed !== undefined) return { text: listed === blankAnswer ? "" : listed, news: null };
    const text = convert(cell);
    const news = isCoded && values.size > 0 ? (text === null ? "not" : "by vocabulary") : null;
    return { text: text ?? cell, news };
  };
}

function converterOf(
  field: Field,
  { rule, mapping }: { readonly rule: ColumnRule; readonly mapping: Mapping },
): (cell: string) => string | null {
  switch (field.kind) {
    case "date":
    case "period":
      return (cell) =>
        dateText(cell, {
          order: rule.date_order ?? mapping.date_order,
          twoDigitYearsUntil: mapping.two_digit_years_until ?? null,
          dayNumbersFrom: mapping.day_numbers_from ?? null,
          periods: field.kind === "period" ? "taken" : "queried",
        });
    case "number":
    case "integer":
    case "bounded":
      return (cell) =>
        numberText(cell, {
          decimalSign: rule.decimal_sign ?? mapping.decimal_sign,
          ours: field.unit,
          theirs: rule.unit,
          bounds: field.kind === "bounded" ? "taken" : "queried",
        });
    case "choice":
    case "list":
      return codedReader(field, { numbered: rule.numbered });
    case "identifier":
    case "text":
      return (cell) => cell;
  }
}
