// General vocabulary of column names and coded cells, by language

export { english } from "./english.js";
export { french } from "./french.js";
export { german } from "./german.js";
export { italian } from "./italian.js";
export { spanish } from "./spanish.js";
export {
  type CellWords,
  type Concept,
  concepts,
  phrasesOf,
  type TermWords,
  type Vocabulary,
} from "./vocabulary.js";
