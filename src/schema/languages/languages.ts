// The languages that spreadsheets are read in: one file a language, complete by its type

import { dutch } from "./dutch.js";
import { english } from "./english.js";
import { french } from "./french.js";
import { german } from "./german.js";
import { italian } from "./italian.js";
import type { Language } from "./language.js";
import { polish } from "./polish.js";
import { spanish } from "./spanish.js";

/** All at once: no file says in which language it is written, and many mix them. */
export const languages: readonly Language[] = [english, german, french, spanish, italian, dutch, polish];

export {
  type CellWords,
  type Concept,
  concepts,
  type DateWords,
  type Language,
  type Phrases,
  phrasesOf,
} from "./language.js";
