import { cellReaderOf } from "../../../schema/cells/read-cell.js";
import type { Field } from "../../../schema/field.js";
import { phrasesOfAll } from "../../../schema/languages/alternatives.js";
import { oneTerm, readWords } from "../cell-words.js";
import { type MixedRule, partOfMixed } from "../mixed-cell.js";
import { plainWords } from "../plain-words.js";
import { type FingerCount, readFinger, withoutFingerNumber } from "../read-finger.js";
import { namesExtent, readPulleys } from "../read-pulleys.js";

/** Longer cells are free text. */
const longest = 200;

export interface CodedOptions {
  readonly numbered?: FingerCount | undefined;
  /** The rule of the column, where its cells may be mixed or hold ranges. */
  readonly rule?: MixedRule | undefined;
}

/**
 * The reader of a coded column: its cells as our terms, by the general vocabulary of the languages.
 * Null for what could mean two things or is not known; "" for what says nothing of this field.
 */
export function codedReader(
  field: Field,
  { numbered, rule = {} }: CodedOptions = {},
): (cell: string) => string | null {
  const ownWords = cellReaderOf(field);
  const alone = wordReader(field, { numbered, rule });
  const byWords = (cell: string): string | null =>
    alone(cell) ?? (rule.mixed === undefined ? null : partOfMixed(cell, field, rule));
  return (cell) => {
    if (cell.length > longest) return null;
    const reading = ownWords(cell);
    if ("value" in reading) {
      return Array.isArray(reading.value)
        ? reading.value.join("|")
        : reading.value === null
          ? null
          : String(reading.value);
    }
    const text = byWords(cell);
    if (text === "" && rule.mixed !== undefined) return "";
    return text !== null && (field.kind === "list" || field.terms?.includes(text)) ? text : null;
  };
}

function wordReader(
  field: Field,
  { numbered, rule: { ranges } = {} }: CodedOptions,
): (cell: string) => string | null {
  const { cells = "own-words" } = field;
  switch (cells) {
    case "own-words":
      return () => null;
    case "finger":
      return (cell) => readFinger(cell, numbered);
    case "hand_beside_finger":
      return (cell) => oneTerm(withoutFingerNumber(cell), { kind: "hand", beside: ["finger"] });
    case "pulleys":
      return (cell) => readPulleys(cell, ranges)?.pulleys.join("|") ?? null;
    case "pulley":
      return (cell) => onlyOne(readPulleys(cell)?.pulleys);
    case "extent":
      return extentsIn;
    case "grade":
      return gradeReader(field);
    case "bowstringing":
      return bowstringingIn;
    case "yes_no":
      return yesOrNo;
    default:
      return (cell) => oneTerm(cell, { kind: cells });
  }
}

/** "" where pulleys stand without extents. */
function extentsIn(cell: string): string | null {
  const pulleys = readPulleys(cell);
  if (pulleys !== null) return pulleys.extents?.join("|") ?? (namesExtent(cell) ? null : "");
  const { terms, unknown } = readWords(cell, { kind: "extent" });
  if (unknown.length > 0 || terms.length === 0 || terms.some(({ size }) => size > 1)) return null;
  return terms.flatMap((each) => [...each]).join("|");
}

/** No bowstringing is none; bowstringing may be visible or seen on imaging only. */
function bowstringingIn(cell: string): string | null {
  const named = oneTerm(cell, { kind: "bowstringing" });
  return named ?? (oneTerm(cell, { kind: "yes_no" }) === "no" ? "none" : null);
}

/** What is not yet so is not so. */
const yesOrNo = (cell: string): string | null =>
  oneTerm(cell, { kind: "yes_no" }) ?? (oneTerm(cell, { kind: "not_yet" }) === null ? null : "no");

const onlyOne = (entries: readonly string[] | undefined): string | null =>
  entries?.length === 1 ? entries[0]! : null;

const gradePrefixes = new Set(phrasesOfAll(({ cells }) => cells.grade_prefix.grade));

/** A grade with a word of any language before it, as "Stade III". */
function gradeReader(field: Field): (cell: string) => string | null {
  const read = cellReaderOf(field);
  return (cell) => {
    const words = plainWords(cell).split(" ");
    if (!gradePrefixes.has(words[0] ?? "")) return null;
    const reading = read(words.slice(1).join(" "));
    return "value" in reading && reading.value !== null ? String(reading.value) : null;
  };
}
