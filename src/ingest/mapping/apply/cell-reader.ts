import { cellReaderOf } from "../../../schema/cells/read-cell.js";
import type { CellProblem } from "../../../schema/cells/reading.js";
import type { Field } from "../../../schema/field.js";
import { askAnswer, blankAnswer, type ColumnRule, type Mapping } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { ageReader } from "./age-text.js";
import { codedReader } from "./coded-text.js";
import { type DateForm, dateTextReader } from "./date-text.js";
import { numberText } from "./number-text.js";

/** A cell of the file in our text. */
export interface CellRead {
  readonly text: string;
  /** Why the cell stays as it is written, where the mapping can tell. */
  readonly problem: CellProblem | null;
  /** How a coded cell was read that the mapping does not list; null where it lists it or lists none. */
  readonly newWord: "by vocabulary" | "not" | null;
}

/** Reads a cell, clean and not blank; `injury` is the day of the injury of its row in our text. */
export type MappedReader = (cell: string, injury: string) => CellRead;

interface ReaderOptions {
  readonly rule: ColumnRule;
  readonly mapping: Mapping;
}

/**
 * The reader of a mapped column: cells of the file as our text.
 * What cannot be read stays as it is written: typing the row then asks about it.
 */
export function mappedReader(field: Field, options: ReaderOptions): MappedReader {
  const values = new Map(
    Object.entries(options.rule.values ?? {}).map(([cell, text]) => [comparedText(cell), text]),
  );
  const convert = converterOf(field, { ...options, isListed: values.size > 0 });
  const readable = cellReaderOf(field);
  return remembering((cell, injury) => {
    const listed = values.get(comparedText(cell));
    if (listed === undefined) return convert(cell, injury);
    // what is to be asked must not be readable
    const asked = "value" in readable(cell) ? `? ${cell}` : cell;
    return plainly(listed === askAnswer ? asked : listed === blankAnswer ? "" : listed);
  });
}

/** How many cells of a column are remembered: sheets repeat themselves. */
const remembered = 5_000;

function remembering(read: MappedReader): MappedReader {
  const known = new Map<string, CellRead>();
  return (cell, injury) => {
    const key = `${cell}\n${injury}`;
    const before = known.get(key);
    if (before !== undefined) return before;
    const now = read(cell, injury);
    if (known.size < remembered) known.set(key, now);
    return now;
  };
}

const plainly = (text: string): CellRead => ({ text, problem: null, newWord: null });

function converterOf(
  field: Field,
  { rule, mapping, isListed }: ReaderOptions & { readonly isListed: boolean },
): MappedReader {
  if (rule.born_on !== undefined || rule.born_in !== undefined) return birthReader(rule, mapping);
  switch (field.kind) {
    case "date":
    case "period": {
      const read = dateReaderOf({ rule, mapping, periods: field.kind === "period" ? "taken" : "queried" });
      return (cell, injury) => {
        const reading = read(cell, injury);
        if ("value" in reading) return plainly(String(reading.value ?? ""));
        return { text: cell, problem: reading, newWord: null };
      };
    }
    case "number":
    case "integer":
    case "bounded": {
      const form = {
        decimalSign: rule.decimal_sign ?? mapping.decimal_sign,
        ours: field.unit,
        theirs: rule.unit,
        bounds: field.kind === "bounded" ? "taken" : "queried",
      } as const;
      return (cell) => plainly(numberText(cell, form) ?? cell);
    }
    case "choice":
    case "list": {
      const read = codedReader(field, { numbered: rule.numbered, rule });
      return (cell) => {
        const text = read(cell);
        const newWord =
          isListed && rule.mixed === undefined ? (text === null ? "not" : "by vocabulary") : null;
        return { text: text ?? cell, problem: null, newWord };
      };
    }
    case "identifier":
    case "text":
      return plainly;
  }
}

/** The reader of a mapped column of dates. */
export const dateReaderOf = ({
  rule,
  mapping,
  periods,
}: ReaderOptions & Pick<DateForm, "periods">): ReturnType<typeof dateTextReader> =>
  dateTextReader({
    order: rule.date_order ?? mapping.date_order,
    twoDigitYearsUntil: mapping.two_digit_years_until ?? null,
    dayNumbersFrom: mapping.day_numbers_from ?? null,
    periods,
    counted: rule.counted,
    fractions: rule.fractions,
  });

function birthReader(rule: ColumnRule, mapping: Mapping): MappedReader {
  const form = {
    order: rule.date_order ?? mapping.date_order,
    dayNumbersFrom: mapping.day_numbers_from ?? null,
  };
  const read = ageReader(form, rule.born_in === undefined ? "dates" : "years");
  return (cell, injury) => plainly(read(cell, injury));
}
