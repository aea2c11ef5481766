import { phrasesOfAll } from "../../../schema/languages/alternatives.js";
import { type Concept, concepts, languages, phrasesOf } from "../../../schema/languages/languages.js";
import { nearest } from "../../../schema/near.js";

/** What each phrase can speak of, over all languages. */
const meanings: ReadonlyMap<string, ReadonlySet<Concept>> = (() => {
  const found = new Map<string, Set<Concept>>();
  for (const { headers } of languages) {
    for (const concept of concepts) {
      for (const phrase of phrasesOf(headers[concept])) {
        const known = found.get(phrase) ?? new Set<Concept>();
        found.set(phrase, known.add(concept));
      }
    }
  }
  return found;
})();

const longestPhrase = Math.max(...[...meanings.keys()].map((phrase) => phrase.split(" ").length));
const fillers = new Set(phrasesOfAll((language) => language.fillers));
/** Words long enough that a slip of the keyboard leaves them recognisable. */
const recognisable = [...meanings.keys()].filter((phrase) => !phrase.includes(" ") && phrase.length >= 5);
/** Parts that compound words are made of. */
const stems = [
  ...new Set(
    languages
      .filter(({ compounds }) => compounds)
      .flatMap(({ headers }) => Object.values(headers).flatMap(phrasesOf)),
  ),
].filter((phrase) => !phrase.includes(" ") && phrase.length >= 3);

/** A part of a column name and what it can speak of. */
export interface Segment {
  readonly text: string;
  readonly concepts: ReadonlySet<Concept>;
  /** Read in spite of a slip of the keyboard. */
  readonly isNear: boolean;
}

/** Words taken apart into phrases with a meaning, longest first; words without one are listed, fillers dropped. */
export function segmentsOf(words: readonly string[]): {
  readonly segments: readonly Segment[];
  readonly unknown: readonly string[];
} {
  const segments: Segment[] = [];
  const unknown: string[] = [];
  for (let i = 0; i < words.length; ) {
    const length = phraseLengthAt(words, i);
    const text = words.slice(i, i + Math.max(1, length)).join(" ");
    if (length > 0) segments.push({ text, concepts: meanings.get(text)!, isNear: false });
    else if (!fillers.has(text)) {
      const parts = partsOf(text);
      if (parts === null) unknown.push(text);
      else segments.push(...parts);
    }
    i += Math.max(1, length);
  }
  return { segments, unknown };
}

function phraseLengthAt(words: readonly string[], place: number): number {
  for (let length = Math.min(longestPhrase, words.length - place); length > 0; length--) {
    if (meanings.has(words.slice(place, place + length).join(" "))) return length;
  }
  return 0;
}

function nearPart(word: string): readonly Segment[] | null {
  if (word.length < 5) return null;
  const near = nearest(word, recognisable);
  return near === null ? null : [{ text: word, concepts: meanings.get(near)!, isNear: true }];
}

const links = ["", "s", "es", "n", "en", "e"];
const longestWord = 40;

/** Words of names that were taken apart before: those of a wide sheet repeat. */
const takenApart = new Map<string, readonly Segment[] | null>();
const mostKept = 10_000;

function partsOf(word: string): readonly Segment[] | null {
  const known = takenApart.get(word);
  if (known !== undefined) return known;
  const parts = compoundParts(word) ?? nearPart(word);
  if (takenApart.size < mostKept) takenApart.set(word, parts);
  return parts;
}

/** A compound as its parts ("unfall" + "datum"), fewest first; null where it is none. */
function compoundParts(word: string): readonly Segment[] | null {
  if (word.length < 6 || word.length > longestWord) return null;
  const best: (readonly string[] | null)[] = Array.from({ length: word.length + 1 }, () => null);
  best[0] = [];
  for (let end = 3; end <= word.length; end++) {
    for (const stem of stems) {
      for (const link of end === word.length ? [""] : links) {
        const begin = end - stem.length - link.length;
        const before = best[begin];
        if (begin < 0 || before === null || before === undefined || !word.startsWith(stem + link, begin))
          continue;
        if (before.length + 1 < (best[end]?.length ?? Number.POSITIVE_INFINITY))
          best[end] = [...before, stem];
      }
    }
  }
  const parts = best[word.length];
  if (parts === null || parts === undefined || parts.length < 2) return null;
  return parts.map((text) => ({ text, concepts: meanings.get(text)!, isNear: false }));
}
