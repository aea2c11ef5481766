import { type CellWords, languages, type Phrases, phrasesOf } from "../../schema/languages/languages.js";
import { plainWords } from "./plain-words.js";

/** What cells of a kind can be about. */
export type WordKind = keyof CellWords;

/** Phrases of one kind over all languages, with the terms each can mean. */
interface Lexicon {
  readonly terms: ReadonlyMap<string, ReadonlySet<string>>;
  readonly longest: number;
}

const lexicons = new Map<WordKind, Lexicon>();

function lexiconOf(kind: WordKind): Lexicon {
  const known = lexicons.get(kind);
  if (known !== undefined) return known;
  const terms = new Map<string, Set<string>>();
  for (const { cells } of languages) {
    for (const [term, phrases] of Object.entries<Phrases>(cells[kind])) {
      for (const phrase of phrasesOf(phrases)) terms.set(phrase, (terms.get(phrase) ?? new Set()).add(term));
    }
  }
  const longest = Math.max(...[...terms.keys()].map((phrase) => phrase.split(" ").length));
  const lexicon = { terms, longest };
  lexicons.set(kind, lexicon);
  return lexicon;
}

/** A cell as a sequence of terms of the kind asked for, and the words in it that are of no kind named. */
export interface WordsRead {
  readonly terms: readonly ReadonlySet<string>[];
  readonly unknown: readonly string[];
}

/**
 * Takes a cell apart into the terms of one kind; words of the companion kinds are passed over.
 *
 * @param options with: kinds that may stand in the same cell, as the hand beside the finger in "R ring"
 */
export function readWords(
  cell: string,
  { kind, beside = [] }: { readonly kind: WordKind; readonly beside?: readonly WordKind[] },
): WordsRead {
  const words = plainWords(cell)
    .split(" ")
    .filter((word) => word !== "");
  const whole = lexiconOf(kind).terms.get(words.join(" "));
  if (whole !== undefined) return { terms: [whole], unknown: [] };
  const passedOver: readonly WordKind[] = [...beside, "filler"];
  const terms: ReadonlySet<string>[] = [];
  const unknown: string[] = [];
  for (let i = 0; i < words.length; ) {
    const own = matchAt(words, i, lexiconOf(kind));
    const other = Math.max(...passedOver.map((each) => matchAt(words, i, lexiconOf(each))));
    if (own > 0 && own >= other) {
      terms.push(lexiconOf(kind).terms.get(words.slice(i, i + own).join(" "))!);
    } else if (other === 0) unknown.push(words[i]!);
    i += Math.max(1, own, other);
  }
  return { terms, unknown };
}

/** How many words from a place on form a phrase of a kind; 0 where none does. */
export const phraseAt = (words: readonly string[], place: number, kind: WordKind): number =>
  matchAt(words, place, lexiconOf(kind));

function matchAt(words: readonly string[], place: number, { terms, longest }: Lexicon): number {
  for (let length = Math.min(longest, words.length - place); length > 0; length--) {
    if (terms.has(words.slice(place, place + length).join(" "))) return length;
  }
  return 0;
}

/** The one term of a kind that a cell can mean; null where it can mean none, or several, or says more than is known. */
export function oneTerm(
  cell: string,
  options: { readonly kind: WordKind; readonly beside?: readonly WordKind[] },
): string | null {
  const { terms, unknown } = readWords(cell, options);
  if (unknown.length > 0) return null;
  const meant = new Set(terms.flatMap((each) => [...each]));
  const [only] = meant;
  return meant.size === 1 && only !== undefined ? only : null;
}
