import type { DefinitionRow, Results } from "../study/results.js";
import type { GroupWords } from "./group-phrases.js";
import { listed } from "./phrases.js";

/** What sites mean by the milestone, as they word it. */
export const meaningWords = ({ definition }: Pick<DefinitionRow, "definition">): string =>
  definition === null ? "not stated" : `\u201c${definition}\u201d`;

/** So many sites are named; the tables have them all. */
const namedSites = 5;

/** The sites that mean the same, after "injuries". */
export function sitesWords({ sites }: Pick<DefinitionRow, "sites">): string {
  if (sites.length === 0) return "of which no site is recorded";
  const named = sites.slice(0, namedSites).map((site) => `\u201c${site}\u201d`);
  const others = sites.length - named.length;
  const more = others === 0 ? [] : [`${others} more`];
  return `at the ${sites.length === 1 ? "site" : "sites"} ${listed([...named, ...more])}`;
}

export function wordsOfDefinition(label: string, { definitions }: Pick<Results, "definitions">): GroupWords {
  const row = definitions?.rows.find((one) => one.label === label);
  const words = row === undefined ? label : sitesWords(row);
  return { of: words, among: words };
}

/** A definition as the heading of its rows. */
export const definitionHeading = (row: DefinitionRow): string =>
  row.sites.length === 0
    ? "no site recorded"
    : `${meaningWords(row)}: ${row.sites.length === 1 ? "site" : "sites"} ${row.sites.join(", ")}`;

/** Whether sites mean different things and the study file does not let them be counted together: then each meaning is answered by itself. */
export const isKeptApart = ({ definitions }: Pick<Results, "definitions">): boolean =>
  definitions !== null && !definitions.pooled;

/** What to write in the study file where definitions are kept apart. */
export const howToPool =
  "To have one answer, choose sites that mean the same (sites under who in the study file) or, if the definitions may be counted together, write definitions: may_differ under question.";
