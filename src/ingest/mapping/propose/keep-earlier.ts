import type { Field } from "../../../schema/field.js";
import type { ShapedSheet } from "../../grid/shape/shape-sheet.js";
import { type ColumnRule, type Mapping, sourcesOf } from "../mapping.js";
import { comparedText } from "../plain-words.js";
import { tableOf } from "../table-of.js";
import type { Guess } from "./guess.js";
import type { Settled } from "./match-columns.js";

/** What an earlier mapping settles about a file. */
export interface Earlier {
  /** By field its one column of the file; null where the rule is kept as it is. */
  readonly settled: Settled;
  readonly notUsed: readonly string[];
  /** Rules of another kind (constants, several columns), kept as they are. */
  readonly rules: Readonly<Record<string, ColumnRule>>;
}

/** Takes from an earlier mapping what still fits a file: rules whose columns are all there. */
export function earlierFor(sheet: Pick<ShapedSheet, "columns">, earlier: Mapping): Earlier {
  const names = new Map(sheet.columns.map(({ name }) => [comparedText(name), name]));
  const settled = new Map<string, string | null>();
  const rules: Record<string, ColumnRule> = {};
  const notUsed = earlier.not_used.filter((name) => names.has(comparedText(name)));
  for (const [field, rule] of Object.entries(earlier.columns)) {
    const sources = sourcesOf(rule).map((name) => names.get(comparedText(name)));
    if (sources.includes(undefined)) continue;
    if (typeof rule.from === "string" && !isShared(rule.from, earlier)) settled.set(field, sources[0]!);
    else {
      settled.set(field, null);
      rules[field] = rule;
    }
  }
  const ofRules = Object.values(rules)
    .flatMap(sourcesOf)
    .map((name) => names.get(comparedText(name))!);
  const held = new Set([...settled.values()]);
  return { settled, notUsed: [...notUsed, ...ofRules.filter((name) => !held.has(name))], rules };
}

/** Whether a column is read by several rules, as a finger column that also says the hand. */
const isShared = (column: string, { columns }: Mapping): boolean =>
  Object.values(columns).filter((rule) => sourcesOf(rule).includes(column)).length > 1;

/**
 * A proposal with what an earlier mapping says put in its place; new cells and columns stay as proposed. Where a column
 * has another name now, its words keep their meaning.
 */
export function withEarlier(
  mapping: Mapping,
  { earlier, kept }: { readonly earlier: Mapping; readonly kept: Earlier },
): Mapping {
  const merged = Object.entries(mapping.columns).map(([field, rule]): [string, ColumnRule] => {
    const before = earlier.columns[field];
    if (before === undefined || before.from === undefined) return [field, rule];
    const values = { ...rule.values, ...before.values };
    const both = kept.settled.has(field) ? { ...rule, ...before } : { ...before, ...rule };
    return [field, { ...both, ...(Object.keys(values).length === 0 ? {} : { values }) }];
  });
  const columns = inOrder({ ...kept.rules, ...Object.fromEntries(merged) }, mapping);
  const used = new Set(Object.values(columns).flatMap(sourcesOf));
  return {
    ...mapping,
    ...settingsOf(earlier, mapping),
    columns,
    not_used: mapping.not_used.filter((name) => !used.has(name)),
    undecided: mapping.undecided.filter(
      ({ decides }) => !decides.every((path) => isSettled(path, columns, earlier)),
    ),
  };
}

/** Settings that a person may have put in by hand. */
function settingsOf(earlier: Mapping, now: Mapping): Partial<Mapping> {
  const order = now.undecided.some(({ decides }) => decides.some(([key]) => key === "date_order"));
  return {
    mapping: earlier.mapping,
    leave_out_rows: earlier.leave_out_rows,
    ...(earlier.header_rows === undefined ? {} : { header_rows: earlier.header_rows }),
    ...(order ? { date_order: earlier.date_order } : {}),
    ...(earlier.two_digit_years_until === undefined
      ? {}
      : { two_digit_years_until: earlier.two_digit_years_until }),
    ...(earlier.day_numbers_from === undefined ? {} : { day_numbers_from: earlier.day_numbers_from }),
  };
}

function isSettled(
  [first = "", second = "", third = "", fourth = ""]: readonly string[],
  columns: Readonly<Record<string, ColumnRule>>,
  earlier: Mapping,
): boolean {
  if (first === "one_row") return earlier.one_row !== undefined;
  if (first === "date_order") return earlier.date_order !== "year-first";
  if (first === "day_numbers_from") return earlier.day_numbers_from !== undefined;
  const rule = first === "columns" ? columns[second] : undefined;
  if (rule === undefined) return false;
  if (third === "values") return Object.hasOwn(rule.values ?? {}, fourth);
  return rule[third as keyof ColumnRule] !== undefined;
}

function inOrder(
  rules: Readonly<Record<string, ColumnRule>>,
  form: Pick<Mapping, "table" | "one_row">,
): Record<string, ColumnRule> {
  const { fields } = tableOf(form);
  return Object.fromEntries(
    fields.flatMap(({ name }) => (rules[name] === undefined ? [] : [[name, rules[name]]])),
  );
}

/** The guesses for rules that are kept as they are. */
export function keptGuesses(rules: Earlier["rules"], fields: readonly Field[]): readonly Guess[] {
  return fields.flatMap((field): Guess[] => {
    const rule = rules[field.name];
    if (rule === undefined) return [];
    return [
      {
        field,
        sources: sourcesOf(rule),
        rule,
        confidence: "sure",
        evidence: ["kept from the earlier mapping"],
      },
    ];
  });
}
