import { counted } from "../../../schema/counted.js";
import { looksLikeDay } from "../../grid/shape/cell-looks.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { isKey, type Mapping, type Undecided } from "../mapping.js";
import { comparedText } from "../plain-words.js";

/** A row of a legend or a band fills so many cells at most, where a record fills at least so many. */
const mostCells = 2;
const leastOfRecord = 5;
/** Of more different rows of that kind nothing is known. */
const mostTexts = 50;

const filledIn = (cells: readonly string[]): readonly string[] => cells.filter((cell) => cell.trim() !== "");

/**
 * Asks once about rows between the records that hold next to nothing: a year that bands the rows below it, a legend, a
 * remark. Only rows without a day, and only where no record begins with the same words, since rows are left out by these.
 */
export function questionsAboutRowsApart(
  { records }: Pick<ShapedSheet, "records">,
  { leave_out_rows }: Pick<Mapping, "leave_out_rows">,
): readonly Undecided[] {
  const sizes = records.map(({ cells }) => filledIn(cells).length).sort((one, other) => one - other);
  if ((sizes[Math.floor(sizes.length / 2)] ?? 0) < leastOfRecord) return [];
  const beginnings = leave_out_rows.map(comparedText);
  const small = records.filter(({ cells }) => {
    const filled = filledIn(cells);
    const first = comparedText(filled[0] ?? "");
    const isKnown = beginnings.some((beginning) => first.startsWith(beginning));
    return filled.length > 0 && filled.length <= mostCells && !filled.some(looksLikeDay) && !isKnown;
  });
  const others = records
    .filter((row) => !small.includes(row))
    .map(({ cells }) => comparedText(filledIn(cells)[0] ?? ""));
  const apart = small.filter(({ cells }) => {
    const first = comparedText(filledIn(cells)[0]!);
    return first !== "" && isKey(first) && !others.some((other) => other.startsWith(first));
  });
  const texts = [...new Set(apart.map(({ cells }) => filledIn(cells)[0]!.trim()))];
  if (texts.length === 0 || texts.length > mostTexts) return [];
  const rows = apart.map(({ row }) => row);
  const listed = `${rows.slice(0, mostListed).join(", ")}${rows.length > mostListed ? ` and ${rows.length - mostListed} more` : ""}`;
  return [
    {
      question: `${rows.length === 1 ? "Row" : "Rows"} ${listed} ${rows.length === 1 ? "holds" : "hold"} hardly anything. Should ${rows.length === 1 ? "it" : "they"} be left out?`,
      decides: texts.map((text) => ["leave_out_rows", text]),
      example: filledIn(apart[0]!.cells).join(" "),
      choices: {
        leave_out: `${counted(rows.length, "row is", "rows are")} left out, and so is any row of a later file that begins with the same words`,
        keep: "they are rows like the others, and are queried",
      },
    },
  ];
}

const mostListed = 10;
