import type { Field } from "../../../schema/field.js";
import { phrasesOfAll } from "../../../schema/languages/alternatives.js";
import type { Concept } from "../../../schema/languages/languages.js";
import type { HeaderSign } from "../../../schema/said-of-field.js";
import { comparedName } from "../../text/header.js";
import { wordsOfName } from "../plain-words.js";
import { type Segment, segmentsOf } from "./header-lexicon.js";

/** A column name taken apart. */
export interface ReadName {
  readonly name: string;
  /** The name as it is compared with the names of fields. */
  readonly compared: string;
  readonly segments: readonly Segment[];
  readonly unknown: readonly string[];
  /** The unit that stands in the name, as `mm` of "TPD (mm)". */
  readonly unit: string | null;
  /** What the name says is counted, as weeks of "weeks to full climbing". */
  readonly counted: "days" | "weeks" | "months" | null;
  /** The pulley that the name is, or holds. */
  readonly pulley: string | null;
}

const units = ["mm", "cm", "inch", "inches", "kg", "lb", "lbs", "g", "kgf", "kp", "newton"];
/** An N alone is a number in most names. */
const newtons = /[([]\s*N\s*[)\]]/;
const countedUnits = {
  days: phrasesOfAll(({ dates }) => dates.counted.days),
  weeks: phrasesOfAll(({ dates }) => dates.counted.weeks),
  months: phrasesOfAll(({ dates }) => dates.counted.months),
};
const pulleyName = /^[ac][1-5]$/;

/**
 * Takes a column name apart into what it speaks of, its unit and its pulley.
 *
 * @param unitBelow what a row of units says below the name
 */
export function readName(name: string, unitBelow: string | null = null): ReadName {
  const words = wordsOfName(name);
  const unit = words.find((word, i) => units.includes(word) && i > 0) ?? null;
  const below = wordsOfName(unitBelow ?? "").find((word) => units.includes(word)) ?? null;
  const pulley = words.find((word) => pulleyName.test(word)) ?? null;
  const inNewtons = newtons.test(`${name} ${unitBelow === null ? "" : `(${unitBelow})`}`);
  const rest = words.filter((word) => word !== unit && word !== pulley && !(inNewtons && word === "n"));
  const spoken = [...words, ...wordsOfName(unitBelow ?? "")];
  const counted = (["days", "weeks", "months"] as const).find((each) =>
    spoken.some((word) => countedUnits[each].includes(word)),
  );
  return {
    name,
    compared: comparedName(name),
    ...segmentsOf(rest),
    counted: counted ?? null,
    unit: unit ?? below ?? (inNewtons ? "N" : null),
    pulley: pulley?.toUpperCase() ?? null,
  };
}

/** How well a column name fits a field: 1 where it says just that, 0 where it says nothing of it. */
export function nameScore(read: ReadName, field: Pick<Field, "name" | "header">): number {
  if (read.compared === field.name) return 1;
  if (read.segments.length === 0) return 0;
  const signs = field.header === "own-name" ? [] : field.header;
  return Math.max(0, ...signs.map((sign) => signScore(read, sign)));
}

const ofUnknownWord = 0.08;
const ofSlip = 0.9;
const ofDetail = 0.01;

/**
 * weight x (needed parts found / needed)^1.5 x (parts that fit / all parts), less a little for each word that says
 * nothing known and for a slip of the keyboard, and a hair more for each further part that fits.
 */
function signScore({ segments, unknown }: ReadName, { needs, also = [], weight = 1 }: HeaderSign): number {
  const left = new Set(segments);
  const taken: Segment[] = [];
  const take = (concept: Concept): boolean => {
    const fitting = [...left].filter(({ concepts }) => concepts.has(concept));
    const narrowest = fitting.sort((one, other) => one.concepts.size - other.concepts.size)[0];
    if (narrowest === undefined) return false;
    // "sex (m/f)", "début du": what is said twice is no further part
    for (const segment of fitting) left.delete(segment);
    taken.push(narrowest);
    return true;
  };
  const needed = needs.filter(take).length;
  if (needed === 0) return 0;
  const share = needed / needs.length;
  const details = also.filter(take).length;
  const fit = taken.length / (taken.length + left.size);
  const ofSlips = taken.reduce((product, { isNear }) => (isNear ? product * ofSlip : product), 1);
  const words = Math.max(0.5, 1 - ofUnknownWord * unknown.length);
  const score = weight * share * Math.sqrt(share) * fit * words * ofSlips;
  return Math.min(1, score + ofDetail * details * score);
}
