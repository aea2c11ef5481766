import type { Language, Phrases } from "./language.js";
import { languages, phrasesOf } from "./languages.js";

/** The phrases of one kind over all languages, each once. */
export const phrasesOfAll = (kind: (language: Language) => Phrases): readonly string[] => [
  ...new Set(languages.flatMap((language) => phrasesOf(kind(language)))),
];

/** Phrases as the alternatives of a regular expression, the longest first; for texts in plain letters. */
export const alternatives = (phrases: readonly string[]): string =>
  [...phrases]
    .sort((one, other) => other.length - one.length || (one < other ? -1 : 1))
    .map((phrase) => phrase.replaceAll(" ", String.raw`(?:[./]\s*|\s+)`))
    .join("|");
