import { saysNothing } from "../../../schema/cells/reading.js";
import { counted } from "../../../schema/counted.js";
import type { Field } from "../../../schema/field.js";
import { levelRank } from "../../../schema/levels.js";
import type { CellVocabulary } from "../../../schema/said-of-field.js";
import { levelScales } from "../../../schema/terms.js";
import { endWithout } from "../apply/cells-in-parts.js";
import { codedReader } from "../apply/coded-text.js";
import { numberText } from "../apply/number-text.js";
import { partsInTurn } from "../apply/treatments-in-turn.js";
import { unitFactor, unitsFor } from "../apply/units.js";
import { oneTerm } from "../cell-words.js";
import { fingerNumber } from "../read-finger.js";
import { readPulleys } from "../read-pulleys.js";
import {
  looksLikeBoundOfCount,
  looksLikeCount,
  looksLikeFraction,
  looksLikeTimeSince,
} from "./date-shapes.js";
import { countPassing, type Profile, passesAtLeast } from "./profile.js";
import { takesTimes } from "./takes-times.js";

/** What the cells of a column say about a field. */
export interface Content {
  /** Share of the filled cells that can be read as the field; null for a column without a filled cell. */
  readonly share: number | null;
  readonly passing: number;
  readonly filled: number;
  /** What such cells are, in words: "dates". */
  readonly what: string;
  /** How much such cells say about the field: 1 where nearly nothing else looks like that, 0 where anything does. */
  readonly power: number;
}

interface Kind {
  readonly what: string;
  readonly power: number;
  readonly test: (cell: string) => boolean;
}

const kinds = new WeakMap<Field, (profile: Profile) => Kind>();

/** What the cells of a column must be to be of a field; made once a field, since columns share their cells. */
function kindOf(field: Field): (profile: Profile) => Kind {
  const kind = kinds.get(field) ?? kindReader(field);
  kinds.set(field, kind);
  return kind;
}

/** Tells how well the cells of a column fit a field. */
export function contentReader(field: Field): (profile: Profile) => Content {
  const kind = kindOf(field);
  return (profile) => {
    const { what, power, test } = kind(profile);
    const passing = countPassing(profile, test);
    const filled = profile.filled.length;
    return { share: filled === 0 ? null : passing / filled, passing, filled, what, power };
  };
}

/**
 * Tells whether so large a share of the filled cells can be read as a field, and nothing else looks like them. Most columns of a wide
 * file are far from it: their cells are looked at only until that shows.
 */
export function unmistakableReader(field: Field): (profile: Profile, leastShare: number) => boolean {
  // of the other kinds none is unmistakable, and to tell a kind of dates takes time
  if (field.kind !== "choice" && field.kind !== "list") return () => false;
  const kind = kindOf(field);
  return (profile, leastShare) => {
    const { power, test } = kind(profile);
    return power === 1 && passesAtLeast(profile, leastShare, test);
  };
}

function kindReader(field: Field): (profile: Profile) => Kind {
  switch (field.kind) {
    case "date":
    case "period":
      return (profile) => dateKind(field, profile);
    case "number":
    case "integer":
    case "bounded": {
      const kind = { what: `numbers ${rangeOf(field)}`, power: 0.5, test: remembering(numberTest(field)) };
      return () => kind;
    }
    case "identifier":
      return (profile) => identifierKind(field, profile);
    case "text": {
      const isOfLevels = field.sharing === "only-on-scale";
      const kind = isOfLevels
        ? { what: "climbing levels", power: 0.9, test: isLevel }
        : { what: "texts", power: 0.1, test: () => true };
      return () => kind;
    }
    case "choice":
    case "list": {
      const about = { what: whatOf(field), power: 1 };
      const test = remembering(codedTest(field));
      return ({ dates }) => ({ ...about, test: (cell) => !dates.has(cell) && test(cell) });
    }
  }
}

/** Cells of one kind repeat from column to column; beyond so many they do not. */
const remembered = 20_000;

function remembering(test: (cell: string) => boolean): (cell: string) => boolean {
  const known = new Map<string, boolean>();
  return (cell) => {
    const before = known.get(cell);
    if (before !== undefined) return before;
    const passes = test(cell);
    if (known.size < remembered) known.set(cell, passes);
    return passes;
  };
}

/** A milestone may also be told as a time since the injury, cell by cell, or by how follow-up ended without it. */
function dateKind(field: Field, { read, distinct, dates }: Profile): Kind {
  const isDate = (cell: string) => dates.has(cell) || saysUndone(cell, field);
  if (!takesTimes(field)) return { what: "dates", power: 0.6, test: isDate };
  const isTime = (cell: string) => looksLikeTime(cell) || (read.counted !== null && looksLikeCount(cell));
  const hasTimes = [...distinct.keys()].some((cell) => !dates.has(cell) && isTime(cell));
  const what = hasTimes
    ? dates.size === 0
      ? "times since the injury"
      : "dates and times since the injury"
    : "dates";
  return { what, power: 0.6, test: (cell) => isDate(cell) || isTime(cell) };
}

const looksLikeTime = remembering(
  (cell) => looksLikeTimeSince(cell) || looksLikeFraction(cell) || looksLikeBoundOfCount(cell),
);

const saysUndone = (cell: string, { blankSays }: Field): boolean =>
  blankSays !== undefined && (saysNothing(cell) || isUndone(cell));

const isUndone = remembering(
  (cell) => oneTerm(cell, { kind: "not_yet" }) !== null || endWithout(cell) !== null,
);

const rangeOf = ({ minimum, maximum }: Field): string =>
  minimum === undefined || maximum === undefined ? "" : `from ${minimum} to ${maximum}`;

/** In any unit that the field may have, with either decimal sign. */
function numberTest({ unit, minimum = -Infinity, maximum = Infinity }: Field): (cell: string) => boolean {
  const factors = unitsFor(unit).map((theirs) => Number(unitFactor(theirs, unit ?? "") ?? 1));
  return (cell) => {
    const text = numberText(cell, {
      decimalSign: "comma",
      ours: undefined,
      theirs: undefined,
      bounds: "taken",
    });
    const plain =
      text ?? numberText(cell, { decimalSign: "comma", ours: unit, theirs: undefined, bounds: "taken" });
    if (plain === null) return false;
    const number = Number(plain.replace(/^[<>]/, ""));
    return (factors.length === 0 ? [1] : factors).some(
      (factor) => number * factor >= minimum && number * factor <= maximum,
    );
  };
}

const longestCode = 40;

function identifierKind({ fewNames, onSeveralRows }: Field, { distinct, filled, dates }: Profile): Kind {
  const isCode = (cell: string) =>
    cell.length <= longestCode && cell.split(/\s+/).length <= 3 && !dates.has(cell);
  if (fewNames) {
    return {
      what: "few different codes",
      power: 0.4,
      test: (cell) => isCode(cell) && distinct.size <= 30,
    };
  }
  const various = distinct.size >= Math.max(1, filled.length * (onSeveralRows ? 0.02 : 0.3));
  return {
    what: `${counted(distinct.size, "different code", "different codes")}`,
    power: 0.4,
    test: (cell) => isCode(cell) && various,
  };
}

const isLevel = (cell: string): boolean =>
  !/^\d+$/.test(cell) ? levelScales.some((scale) => levelRank(cell, scale) !== null) : Number(cell) <= 39;

/** Cells that name a finger by number or a grade without its letter are of the field, though they need a question. */
function codedTest(field: Field): (cell: string) => boolean {
  const read = codedReader(field);
  return (cell) => {
    if (read(cell) !== null) return true;
    if (field.cells === "finger")
      return fingerNumber(cell) !== null && codedReader(field, { numbered: "with_thumb" })(cell) !== null;
    if (field.cells === "treatment") return partsInTurn(cell).some(({ name }) => read(name) !== null);
    if (field.cells === "grade") return /^(?:gr\S*|stad\S*)?\s*(?:4|iv|[1-4]\s*[-/]\s*[1-4])$/i.test(cell);
    if (field.cells === "pulleys") return readPulleys(cell) !== null || /\b[ac][1-5]\b/i.test(cell);
    return false;
  };
}

/** Cells whose terms need no list. */
const names: Readonly<Partial<Record<CellVocabulary, string>>> = {
  hand_beside_finger: "hands",
  finger: "fingers",
  pulleys: "pulleys",
  extent: "extents",
  grade: "grades",
  treatment: "treatments",
  sex: "words for sex",
};

const whatOf = ({ cells = "own-words", terms = [] }: Field): string =>
  names[cells] ?? `words for ${terms.slice(0, 3).join(", ")}${terms.length > 3 ? " ..." : ""}`;
