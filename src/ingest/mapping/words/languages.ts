import { english } from "./english.js";
import { french } from "./french.js";
import { german } from "./german.js";
import { italian } from "./italian.js";
import { spanish } from "./spanish.js";
import type { Vocabulary } from "./vocabulary.js";

/** The languages that are read, all at once: no file says in which it is written, and many mix them. */
export const languages: readonly Vocabulary[] = [english, german, french, spanish, italian];
