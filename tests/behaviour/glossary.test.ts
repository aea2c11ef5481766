import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { describe, expect, it } from "vitest";
import {
  type DataQuery,
  queryCodes,
  queryText,
  type Table,
  tables,
  unitInWords,
} from "../../src/schema/index.js";
import { nodesOf, parsed, type SourceFile, sourceFiles } from "./source-tree.js";

// One word for one thing, in the terms of the field, in every text that a person meets.

/** The folders whose texts a person meets. */
const folders = [
  "charts/",
  "cli/",
  "exchange/",
  "ingest/",
  "privacy/",
  "report/",
  "schema/",
  "study/",
  "synthetic/",
  "words/",
];
/** Words of a site's own files, which are recognised and never shown, and words of style sheets. */
const vocabularies = ["schema/languages/", "schema/identifying/", "schema/cells/", "report/layout/style-"];
/** Folders whose figures come with an interval or a unit, written by words/units.ts and words/estimates.ts. */
const ofFigures = ["charts/", "report/", "study/", "words/"];

const files = sourceFiles.filter(
  ({ path }) =>
    folders.some((folder) => path.startsWith(folder)) &&
    !vocabularies.some((folder) => path.startsWith(folder)),
);

const pages = ["README.md", ".github/SECURITY.md"].map((path) => ({
  path,
  text: readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), "utf8"),
}));

/** The word that is used, by what is not written in its place. */
const glossary: readonly (readonly [RegExp, string])[] = [
  [/\bdoubt(s|ful)?\b/i, "query"],
  [/\bmend(s|ed|ing)?\b/i, "correct"],
  [/\banew\b/i, "again"],
  [/\bmeanwhile\b/i, "until then"],
  [/\bto be rid of\b/i, "to remove"],
  [/\bheld against\b/i, "compared with, checked by"],
  [/\b(is|are|be|not) told\b|\btold (to|by|as|apart)\b/i, "given, shown, listed"],
  [/\btell how\b/i, "show help"],
  [/\bends (with|in) (code )?\d/i, "exits with"],
  [/\bnothing (is )?to (do|be done)\b/i, "no action is needed"],
  [/\blook (whether|at)\b/i, "check"],
  [/\bstands? (at|in|on|where|there|beside|under|already|twice|out)\b/i, "is, appears"],
  [/\bas (it|they) stands?\b/i, "as it is"],
  [/\b(lies|lie) (outside|before|after|on|within|in|beside|elsewhere|so)\b/i, "is, falls"],
  [/\bour (columns?|tables?|fields?)\b|\b(column|table|unit)s? of ours\b/i, "of the toolkit"],
  [/[;,.] else\b/i, "otherwise"],
  [/\bhurt\b/i, "injured"],
  [/\bthe close\b/i, "the closing date"],
  [/\ballott/i, "allocated"],
  [/\bcommonest\b/i, "most common"],
  [/\b(reckon|picked out|seen to|put together)\b/i, "a plain verb"],
  [/\bone row an?\b|\bone (line|file|doubt|query) a\b/i, "one row per"],
];

/** British spelling throughout. */
const american =
  /\b(colors?|behaviors?|centers?|analyz\w+|recogniz\w+|generaliz\w+|standardiz\w+|anonymiz\w+|randomiz\w+|categoriz\w+|summariz\w+|millimeters?|centimeters?|labeled|modeled|judgment|gray|favor\w*|honor\w*|program?mes?(?= file))\b/i;

/** A text of more than one word that stands in the code, a value in it as three dots; and where. */
interface Prose {
  readonly path: string;
  readonly line: number;
  readonly text: string;
}

const proseOf = ({ path, tree }: SourceFile): readonly Prose[] =>
  [...nodesOf(tree)].flatMap((node) => {
    const text = literalText(node);
    if (text === null || !/\p{L}\S* +\S*\p{L}/u.test(text)) return [];
    return [{ path, line: tree.getLineAndCharacterOfPosition(node.getStart(tree)).line + 1, text }];
  });

function literalText(node: ts.Node): string | null {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) return node.text;
  if (!ts.isTemplateExpression(node)) return null;
  return node.head.text + node.templateSpans.map(({ literal }) => `…${literal.text}`).join("");
}

const prose = files.flatMap(proseOf);

const slipsIn = (
  texts: readonly { readonly path: string; readonly line?: number; readonly text: string }[],
) =>
  texts.flatMap(({ path, line, text }) =>
    [...glossary, [american, "British spelling"] as const].flatMap(([banned, instead]) => {
      const found = banned.exec(text);
      return found === null
        ? []
        : [`${path}${line === undefined ? "" : `:${line}`} "${found[0]}": ${instead}`];
    }),
  );

describe("the glossary", () => {
  it("is kept by every text in the code that a person meets", () => {
    expect(prose.length, "texts are found at all").toBeGreaterThan(1000);
    expect(slipsIn(prose)).toEqual([]);
  });

  it.each(pages)("is kept by $path", (page) => {
    expect(slipsIn([page])).toEqual([]);
  });

  it("is kept by every description in the data dictionary", () => {
    const descriptions = (Object.values(tables) as unknown as readonly Table[]).flatMap(
      ({ name, title, fields }) => [
        { path: name, text: title },
        ...fields.map((field) => ({ path: `${name}.${field.name}`, text: field.description })),
      ],
    );
    expect(slipsIn(descriptions)).toEqual([]);
  });

  it("has one word for a data query: no message about the data speaks of a question", () => {
    const ofQueries = prose.filter(({ path }) => /^schema\/words|^cli\/verbs\/check/.test(path));
    expect(
      ofQueries.filter(({ text }) => /\bquestions?\b/i.test(text) && !/answer its questions/.test(text)),
    ).toEqual([]);
  });

  it("holds in names and comments as well", () => {
    const names = /\b(doubts?|mend(s|ed)?|sieve|takeIn|silenceOf)\b|[a-z]Doubts?\b|doubtsAbout/;
    const found = files.flatMap(({ path, text }) =>
      text.split("\n").flatMap((line, place) => {
        return names.test(line.replace("beyond doubt", "")) ? [`${path}:${place + 1} ${line.trim()}`] : [];
      }),
    );
    expect(found).toEqual([]);
  });

  it("finds what it looks for", () => {
    const slip = parsed("slip.ts", 'export const text = "values lie outside the range";');
    expect(slipsIn(proseOf(slip))).toEqual(['slip.ts:1 "lie outside": is, falls']);
  });
});

/** Nouns that are counted in messages, in the plural. */
const plurals =
  "rows|lines|records|columns|cells|files|people|persons|injuries|queries|questions|days|weeks|months|years|characters|entries|counts|sites|sheets|numbers|dates|readings|returns|classes|keys|problems|parts|bytes|megabytes";

/** Values before a plural that are never 1, by what they are called in the code. */
const neverOne: Readonly<Record<string, string>> = {
  smallest: "2 at least, by the option",
  k: "2 at least, by the option",
  "combinations.k": "2 at least, by the option",
  window: "28 at least",
  "window - 1": "27 at least",
  closingWindow: "28 at least",
  "settings.closingWindow": "28 at least",
  "disclosure.settings.closingWindow": "28 at least",
  "copy.disclosure.injury_days.window": "28 at least",
  "settings.shiftDays + settings.closingWindow": "210 at least",
  width: "bands are widened to two years at least",
  "found.size": "more than the largest file that is read",
  size: "more than the largest file that is read",
  "expected.size": "a report has many files",
  "inner.size": "another sentence is written for 1",
  mostEntries: "a limit of thousands",
  "mostUnpacked / 1_000_000": "a limit of hundreds",
  longestName: "a limit of hundreds",
  'fact(query, "longest")': "a limit of hundreds",
  'fact(query, "soFar")': "more than a table of a study may have",
  'fact(query, "most")': "what a table of a study may have",
  'fact(query, "limit")': "a limit of hundreds",
  'site.visit_weeks.join(", ")': "a list of weeks",
};

/** Templates in which a number that is not counted stands before a noun in the plural. */
const uncountedIn = ({ path, tree }: SourceFile): readonly string[] =>
  [...nodesOf(tree)].filter(ts.isTemplateSpan).flatMap((span) => {
    const value = span.expression.getText(tree);
    const isPlural = new RegExp(`^ (${plurals})\\b`).test(span.literal.text);
    return isPlural && !(value in neverOne) ? [`${path}: ${value}${span.literal.text.split("\n")[0]}`] : [];
  });

describe("numbers and their nouns", () => {
  it("agree in every text in the code: a number that can be 1 is counted", () => {
    expect(
      files.filter(({ path }) => !ofFigures.some((folder) => path.startsWith(folder))).flatMap(uncountedIn),
    ).toEqual([]);
  });

  it("are found where they may not agree", () => {
    const value = "$" + "{n}";
    expect(uncountedIn(parsed("slip.ts", `export const text = \`${value} rows read\`;`))).toEqual([
      "slip.ts: n rows read",
    ]);
  });

  it.each(pages)("agree in $path", ({ text }) => {
    expect(text).not.toMatch(new RegExp(`(?<![\\d.,])1 (${plurals})\\b`));
  });

  it("agree in every query when each number in it that can be 1 is 1", () => {
    const slip = new RegExp(`(?<![\\w.,])1 (${plurals})\\b`);
    expect(queryCodes.filter((code) => slip.test(queryText(everyFactOne(code))))).toEqual([]);
  });
});

/** Facts that are never 1: limits, and how many rows a rule on habits needs at least. */
const large: readonly PropertyKey[] = ["longest", "limit", "most", "soFar", "n", "others_n"];

/** A query whose facts are all 1, whatever their names, but for those that never are. */
const everyFactOne = (code: DataQuery["code"]): DataQuery => ({
  code,
  severity: "look-at",
  file: "sheet.csv",
  row: 1,
  column: "grade",
  found: "1",
  facts: new Proxy({}, { get: (_, name) => (large.includes(name) ? 1000 : 1) }),
  injury: null,
});

describe("units", () => {
  const measured = (Object.values(tables) as unknown as readonly Table[]).flatMap(({ fields }) =>
    fields.flatMap(({ unit }) => (unit === undefined ? [] : [unit])),
  );

  it.each([...new Set(measured)])("%s is a word in a message", (unit) => {
    const query = { ...everyFactOne("number-out-of-range"), facts: { minimum: 0, maximum: 9, unit } };
    expect(unitInWords(unit)).toMatch(/^[a-z]{4,}( [a-z]+)*$/);
    expect(queryText(query)).toContain(`is outside the range 0 to 9 ${unitInWords(unit)}.`);
  });
});
