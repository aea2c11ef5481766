import { cellReaderOf } from "../../schema/cells/read-cell.js";
import type { Field } from "../../schema/field.js";
import { phrasesOfAll } from "../../schema/languages/alternatives.js";
import { oneTerm, phraseAt } from "./cell-words.js";
import { cleanCell } from "./look-alikes.js";
import { askAnswer, blankAnswer, type ColumnRule } from "./mapping.js";
import { plainWords } from "./plain-words.js";
import { type FingerCount, readFinger } from "./read-finger.js";
import { readPulleys, spelledOut } from "./read-pulleys.js";

/** What a part of a mixed cell speaks of; `number` stands alone, `listed` is a word that the mapping explains. */
export type PartKind =
  | "pulley"
  | "extent"
  | "grade"
  | "finger"
  | "hand"
  | "suspected"
  | "number"
  | "listed"
  | "filler"
  | "unknown";

/** A part of a cell in plain words. */
export interface CellPart {
  readonly kind: PartKind;
  readonly text: string;
}

/** The fields that may stand in one cell, and the parts that each is read from. */
const partsOfField: Readonly<Record<string, readonly PartKind[]>> = {
  finger: ["finger"],
  hand: ["hand"],
  pulleys: ["pulley", "extent", "filler"],
  pulley_extents: ["pulley", "extent", "filler"],
  grade: ["grade"],
};

/** The fields that may stand in one cell. */
export const mixedFields: readonly string[] = Object.keys(partsOfField);

/** How the mixed cells of a column are read. */
export type MixedRule = Pick<ColumnRule, "mixed" | "ranges" | "values">;

const gradePrefixes = new Set(phrasesOfAll(({ cells }) => cells.grade_prefix.grade));
const fingerPrefixes = new Set(phrasesOfAll(({ finger_number }) => finger_number));
const pulley = /^[ac][1-5]$/;
const gradeToken = /^(?:i{1,3}|iv|[1-4])[ab]?$/;
const numberToken = /^(?:i{1,3}|iv|v|[1-5])[ab]?$/;
const fingerToken = /^(?:i{1,3}|iv|v|[1-5])$/;
const joinedFinger = /^[a-z]+[1-5]$/;
/** Of phrases equally long the first of these is meant. */
const inWords = ["suspected", "finger", "hand", "extent", "filler"] as const;

/**
 * Takes a cell apart into what its words speak of: "V.a. A2 Riss Grad III" into a suspicion, a pulley, a word that adds
 * nothing and a grade. A question mark is a suspicion.
 *
 * @param rule whose ranges and words hold; @returns null where a range of pulleys could mean two things
 */
export function partsOfCell(cell: string, { ranges, values = {} }: MixedRule): readonly CellPart[] | null {
  const text = spelledOut(cleanCell(cell).text, ranges);
  if (text === null) return null;
  const listed = new Set(Object.keys(values).map(plainWords));
  const words = plainWords(text)
    .split(" ")
    .filter((word) => word !== "");
  const parts: CellPart[] = text.includes("?") ? [{ kind: "suspected", text: "?" }] : [];
  for (let i = 0; i < words.length; ) {
    const { kind, size } = partAt(words, { i, listed });
    parts.push({ kind, text: words.slice(i, i + size).join(" ") });
    i += size;
  }
  return parts;
}

function partAt(
  words: readonly string[],
  { i, listed }: { readonly i: number; readonly listed: ReadonlySet<string> },
): { readonly kind: PartKind; readonly size: number } {
  const [word = "", next = ""] = words.slice(i, i + 2);
  if (listed.has(word)) return { kind: "listed", size: 1 };
  if (pulley.test(word)) return { kind: "pulley", size: 1 };
  if (gradePrefixes.has(word) && gradeToken.test(next)) return { kind: "grade", size: 2 };
  if (fingerPrefixes.has(word) && fingerToken.test(next)) return { kind: "finger", size: 2 };
  if (joinedFinger.test(word) && fingerPrefixes.has(word.slice(0, -1))) return { kind: "finger", size: 1 };
  const sizes = inWords.map((kind) => ({ kind, size: phraseAt(words, i, kind) }));
  const longest = sizes.reduce((best, each) => (each.size > best.size ? each : best));
  if (longest.size > 0) return longest;
  return { kind: numberToken.test(word) ? "number" : "unknown", size: 1 };
}

/**
 * What a mixed cell says of one field, as our text: "" where it says nothing of it; null where that is not plain: a word
 * that is not known, a number or a suspicion about which the mapping says nothing.
 */
export function partOfMixed(cell: string, field: Field, rule: MixedRule): string | null {
  const parts = partsOfCell(cell, rule);
  if (parts === null || parts.some(({ kind }) => kind === "unknown")) return null;
  const { number, suspected } = rule.mixed ?? {};
  const isSuspected = parts.some(({ kind }) => kind === "suspected");
  const isFinding = field.name === "pulleys" || field.name === "grade";
  if (isSuspected && (suspected === undefined || (suspected === "asked" && isFinding))) return null;
  if (number === undefined && parts.some(({ kind }) => kind === "number")) return null;
  const meant = listedMeaning(parts, field, rule);
  if (meant !== undefined) return meant;
  if (isSuspected && suspected === "grade_unknown" && field.name === "grade") return "unknown";
  if (isSuspected && suspected === "grade_unknown" && field.name === "pulley_extents") return "";
  const own = parts.filter(
    ({ kind }) => partsOfField[field.name]?.includes(kind) || isNumberOf(field, { kind, number }),
  );
  const said = own.filter(({ kind }) => kind !== "filler");
  return said.length === 0 ? "" : readOwn(own.map(({ text }) => text).join(" "), { field, rule, said });
}

const isNumberOf = (
  { name }: Field,
  { kind, number }: { readonly kind: PartKind; readonly number: (MixedRule["mixed"] & {})["number"] },
): boolean => kind === "number" && number !== undefined && number.startsWith(name);

/** What a word that the mapping explains means for a field: a value of it, a question, or nothing (undefined). */
function listedMeaning(
  parts: readonly CellPart[],
  { terms = [] }: Field,
  { values = {} }: MixedRule,
): string | null | undefined {
  const byWord = new Map(Object.entries(values).map(([word, meaning]) => [plainWords(word), meaning]));
  const meanings = parts.flatMap(({ kind, text }) => (kind === "listed" ? [byWord.get(text)!] : []));
  if (meanings.includes(askAnswer)) return null;
  return meanings.find((meaning) => meaning !== blankAnswer && terms.includes(meaning));
}

function readOwn(
  text: string,
  {
    field,
    rule,
    said,
  }: { readonly field: Field; readonly rule: MixedRule; readonly said: readonly CellPart[] },
): string | null {
  switch (field.name) {
    case "finger":
      return readFinger(text, fingerCountIn(rule));
    case "hand":
      return oneTerm(text, { kind: "hand" });
    case "grade":
      return said.length === 1 ? gradeIn(said[0]!.text, field) : null;
    case "pulleys":
      return readPulleys(text)?.pulleys.join("|") ?? null;
    default:
      return readPulleys(text)?.extents?.join("|") ?? "";
  }
}

function fingerCountIn({ mixed }: MixedRule): FingerCount | undefined {
  if (mixed?.number === "finger_with_thumb") return "with_thumb";
  return mixed?.number === "finger_without_thumb" ? "without_thumb" : undefined;
}

function gradeIn(text: string, field: Field): string | null {
  const reading = cellReaderOf(field)(text.split(" ").at(-1)!);
  return "value" in reading && reading.value !== null ? String(reading.value) : null;
}
