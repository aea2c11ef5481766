/**
 * Writes `src/schema/RULES.md`: every kind of doubt with its words, the file that raises it and the tests that name it, as
 * the source says. With `--check` nothing is written, and a table that differs ends with exit code 1.
 */
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  answerCodes,
  cellCodes,
  type DataQuery,
  fileCodes,
  habitCodes,
  historyCodes,
  linkCodes,
  mappingCodes,
  type QueryCode,
  rowCodes,
} from "../schema/data-query.js";
import { sayQuery } from "../schema/words.js";

const root = new URL("../../", import.meta.url);
const page = new URL("src/schema/RULES.md", root);

/** The groups of codes, in the order in which a file is read. */
const groups: readonly (readonly [title: string, codes: readonly QueryCode[]])[] = [
  ["A file, its header, the shape of its rows", fileCodes],
  ["A file read by a mapping", mappingCodes],
  ["One cell", cellCodes],
  ["A row against itself", rowCodes],
  ["Rows against each other", linkCodes],
  ["Sides and sequences", historyCodes],
  ["Habits in which a column was filled", habitCodes],
  ["Answers of the site", answerCodes],
];

/** A kind of doubt as the table shows it. */
export interface RuleRow {
  readonly code: QueryCode;
  readonly says: string;
  /** Files below `src/` that raise it, and those below `tests/behaviour/` that name it, without their endings. */
  readonly files: readonly string[];
  readonly tests: readonly string[];
}

interface Text {
  readonly name: string;
  readonly text: string;
}

/** The texts of the files below a folder of the project whose names end so, in the order of their names. */
function textsIn(folder: string, ending: string): readonly Text[] {
  const place = new URL(`${folder}/`, root);
  const names = readdirSync(place, { recursive: true, encoding: "utf8" }).map((name) =>
    name.replaceAll("\\", "/"),
  );
  return names
    .filter((name) => name.endsWith(ending))
    .sort()
    .map((name) => ({
      name: name.slice(0, -ending.length),
      text: readFileSync(new URL(name, place), "utf8"),
    }));
}

/** What lists codes or gives them their words raises none; nor does what compares with one or shows one as an example. */
const raisesNone = /^schema\/(?:words|data-query)/;
const raised = (code: QueryCode) => new RegExp(`(?<![!=]== |example: )"${code}"`);

/** Every kind of doubt, by group. */
export function ruleRows(): readonly (readonly [title: string, rows: readonly RuleRow[]])[] {
  const sources = ["schema", "ingest"].flatMap((folder) =>
    textsIn(`src/${folder}`, ".ts").map(({ name, text }) => ({ name: `${folder}/${name}`, text })),
  );
  const raising = sources.filter(({ name }) => !raisesNone.test(name));
  const tests = ["schema", "ingest"].flatMap((folder) =>
    textsIn(`tests/behaviour/${folder}`, ".test.ts").map(({ name, text }) => ({
      name: `${folder}/${name}`,
      text,
    })),
  );
  const namesOf = (texts: readonly Text[], code: RegExp) =>
    texts.filter(({ text }) => code.test(text)).map(({ name }) => name);
  return groups.map(([title, codes]) => [
    title,
    codes.map((code) => ({
      code,
      says: wordsOf(code),
      files: namesOf(raising, raised(code)),
      tests: namesOf(tests, new RegExp(`\\b${code}\\b(?!-)`)),
    })),
  ]);
}

/** The words of a doubt that holds nothing: a fact that they name stands as its name in italics. */
function wordsOf(code: QueryCode): string {
  const facts = new Proxy<DataQuery["facts"]>({}, { get: (_, name) => `*${String(name)}*` });
  const about = { severity: "look-at", file: "", row: null, column: "…", found: null, injury: null } as const;
  return sayQuery({ ...about, code, facts })
    .expected.replaceAll("_", " ")
    .replaceAll("|", "\\|");
}

const introduction = `# The rules on the data

Made by \`npm run generate\` from the code and the tests; not to be edited.

A rule asks; only what is wrong beyond doubt sets a row aside. Each is shown to ask and to keep silent. Thresholds are common practice or our choice, said beside each. Words stand in \`words/\`, and a code without words does not compile; the sentences below go on from what is asked about: a cell, a row, a column or a file. In italics: what the file at hand says. Files are below \`src/\`, tests below \`tests/behaviour/\`: those that name the code.
`;

/** The text of the page. */
export function rulesPage(): string {
  const listed = (names: readonly string[]) => names.join(", ");
  const sections = ruleRows().map(([title, rows]) =>
    [
      `## ${title}`,
      "",
      "| code | what is asked | file | tests |",
      "| --- | --- | --- | --- |",
      ...rows.map(
        ({ code, says, files, tests }) => `| \`${code}\` | ${says} | ${listed(files)} | ${listed(tests)} |`,
      ),
      "",
    ].join("\n"),
  );
  return [introduction, ...sections].join("\n");
}

function main(): void {
  const text = rulesPage();
  if (!process.argv.includes("--check")) {
    writeFileSync(page, text);
    return;
  }
  if (readFileSync(page, "utf8") === text) return;
  process.stderr.write(
    "src/schema/RULES.md differs from what the code says.\n  Run: node dist/maintenance/rules.js\n",
  );
  process.exitCode = 1;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) main();
