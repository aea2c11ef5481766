// General vocabulary of column names and coded cells, by language

export { english } from "./english.js";
export { german } from "./german.js";
export { languages } from "./languages.js";
export {
  type CellWords,
  type Concept,
  concepts,
  phrasesOf,
  type TermWords,
  type Vocabulary,
} from "./vocabulary.js";
