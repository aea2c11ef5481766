import { type ColumnRule, type Mapping, sourcesOf, type Undecided } from "./mapping.js";
import { meaningKey, notUsedAnswer } from "./meaning.js";
import { distancesOf } from "./propose/days-of-scans.js";

/**
 * A mapping with a question answered: the answer stands where the question says, and the question is gone.
 *
 * @param answer one of the choices
 */
export function settleQuestion(
  mapping: Mapping,
  { question, answer }: { readonly question: Undecided; readonly answer: string },
): Mapping {
  const reads = ownValue(question.reads, answer) ?? {};
  const settled = question.decides.reduce(
    (before, path) => withAnswer(before, { path, answer, reads }),
    mapping,
  );
  return { ...settled, undecided: settled.undecided.filter((each) => each !== question) };
}

function withAnswer(
  mapping: Mapping,
  {
    path,
    answer,
    reads,
  }: { readonly path: readonly string[]; readonly answer: string; readonly reads: ColumnRule },
): Mapping {
  const [first = "", second = "", third = "", fourth = ""] = path;
  if (first === meaningKey) {
    return answer === notUsedAnswer
      ? { ...mapping, not_used: [...mapping.not_used, second] }
      : { ...mapping, columns: { ...mapping.columns, [answer]: ruleFor(second, reads) } };
  }
  if (first === "injuries_in_row" && mapping.injuries_in_row !== undefined)
    return { ...mapping, injuries_in_row: { ...mapping.injuries_in_row, read: answer as "each" | "first" } };
  if (first === "leave_out_rows")
    return answer === "leave_out"
      ? { ...mapping, leave_out_rows: [...mapping.leave_out_rows, second] }
      : mapping;
  if (first === "day_of_scan") return withDayOfScan(mapping, { which: second, answer });
  if (first !== "columns")
    return { ...mapping, [first]: first === "day_numbers_from" ? Number(answer) : answer };
  const rule = ownValue(mapping.columns, second) ?? {};
  const changed =
    third === "values"
      ? { ...rule, values: { ...rule.values, [fourth]: answer } }
      : third === "mixed"
        ? { ...rule, mixed: { ...rule.mixed, [fourth]: answer } }
        : { ...rule, [third]: answer };
  const not_used = third === "from" ? mapping.not_used.filter((name) => name !== answer) : mapping.not_used;
  return { ...mapping, not_used, columns: { ...mapping.columns, [second]: changed } };
}

/** The day of the scan from a column, or the distances without a day left out. */
function withDayOfScan(
  mapping: Mapping,
  { which, answer }: { readonly which: string; readonly answer: string },
): Mapping {
  if (answer !== notUsedAnswer)
    return { ...mapping, columns: { ...mapping.columns, [`date_${which}_scan`]: { from: answer } } };
  const own = distancesOf(which);
  const left = own.flatMap((name) => sourcesOf(ownValue(mapping.columns, name) ?? {}));
  const columns = Object.fromEntries(Object.entries(mapping.columns).filter(([name]) => !own.includes(name)));
  return { ...mapping, columns, not_used: [...mapping.not_used, ...left] };
}

/** A birth is never read as it stands: its column is not where the age comes "from". */
const ruleFor = (column: string, reads: ColumnRule): ColumnRule =>
  reads.born_on === undefined && reads.born_in === undefined ? { from: column, ...reads } : reads;

const ownValue = <Value>(record: Readonly<Record<string, Value>> = {}, key: string): Value | undefined =>
  Object.hasOwn(record, key) ? record[key] : undefined;
