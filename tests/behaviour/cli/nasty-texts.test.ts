import { readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { parseDocument } from "yaml";
import { command, filesIn, folderWith } from "./run-command.js";

/**
 * Texts that steer a terminal, forge a line, turn the reading direction, hide letters, break XML, or are markup, script
 * or names of what every object has.
 */
const steering = [
  "\u001b[2J\u001b[31mred",
  "\u009b31m",
  "bell\u0007",
  "\u007f",
  "\u0001",
  "a\u202eb\u2066c",
  "zero\u200bwidth",
  "\ufeffx",
  "x\ufeffy",
  "line\u2028end\u2029",
  "\u0085next",
  "soft\u00adhyphen",
  "tag\u{e0041}",
];
const forging = ["end\nReport: forged", "end\r\nReport: forged", "tab\tx"];
const markup = [
  "<script>alert(1)</script>",
  "</style><img src=x onerror=alert(1)>",
  "]]>&amp;<!--",
  "[x](javascript:alert(1))",
  "__proto__",
  "constructor",
  "toString",
];
const nasty = [...steering, ...forging, ...markup];

/**
 * Whatever no file or screen of ours holds raw, by the standards rather than by our own list: controls (Unicode, general
 * category Cc) but line feed and tab, marks of direction (UAX 9), separators (UAX 14), the letters of no width.
 */
const forbidden =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff\ufffe\uffff]|[\u{e0000}-\u{e007f}]/u;
const isClean = (text: string): boolean => !forbidden.test(text) && !/\p{Cs}/u.test(text);

/** Rows of a CSV, all of one length. */
function parseCsv(text: string): readonly (readonly string[])[] {
  const { data, errors } = Papa.parse<string[]>(text.trimEnd());
  expect(errors.filter(({ type }) => type !== "Delimiter")).toEqual([]);
  expect(new Set(data.map(({ length }) => length)).size).toBe(1);
  return data;
}

const quoted = (cell: string): string => `"${cell.replaceAll('"', '""')}"`;
const csv = (rows: readonly (readonly string[])[]): string =>
  `${rows.map((row) => row.map(quoted).join(",")).join("\n")}\n`;

const injuryColumns = [
  "injury_id",
  "person_id",
  "site_id",
  "injury_date",
  "hand",
  "finger",
  "pulleys",
  "pulley_extents",
  "grade",
  "full_climbing_date",
  "last_contact_date",
  "end_status",
  "notes",
];
const soundRow = (place: number): string[] => [
  `I${place}`,
  `P${place}`,
  `site ${place % 2}`,
  "2024-03-04",
  "left",
  "ring",
  "A3",
  "complete",
  "2",
  `2024-0${4 + (place % 5)}-1${place % 9}`,
  "2024-12-18",
  "completed",
  "",
];

/** Sound rows, then for each nasty text rows that hold it in one column after another. */
const injuries: string[][] = [
  ...Array.from({ length: 24 }, (_, place) => soundRow(place)),
  ...nasty.flatMap((text, which) =>
    injuryColumns.map((_, column) => {
      const row = soundRow(100 + which * injuryColumns.length + column);
      row[column] = text;
      return row;
    }),
  ),
];

const study = (more: Record<string, unknown> = {}): string =>
  JSON.stringify({
    study: "nasty",
    // a title that holds what cannot be seen is refused, as the tests of settings show
    title: markup.join(" ").slice(0, 200),
    data: { injuries: "injuries.csv", sites: "sites.csv" },
    compare: { by: "site_id", groups: ["site 0", "site 1", "constructor"], reference: "site 0" },
    ...more,
  });

/** Two names that differ in the kind of a line break are one. */
const headers = nasty.filter((text) => !text.includes("\r"));

const folder = () =>
  folderWith({
    "study.yaml": study(),
    "injuries.csv": csv([[...injuryColumns, ...headers.map((text) => `more ${text}`)], ...injuries]),
    "sites.csv": csv([
      ["site_id", "name", "definition_full", "visit_schedule"],
      ...["site 0", "site 1", ...nasty].map((id, place) => [
        id,
        ..."123"
          .split("")
          .map((digit) => (digit === "2" ? nasty[place % nasty.length]! : "a sound text ".repeat(9))),
      ]),
    ]),
    "own.csv": csv([
      ["Patient", "Datum \u001b[31m", "line\nbreak", ...headers],
      ...nasty.map((text, place) => [
        `P${place}`,
        text,
        `a longer text ${text}`,
        ...headers.map(() => "nothing"),
      ]),
    ]),
  });

/** Runs a command and holds what it says against the rule. */
async function said(where: string, ...words: readonly string[]) {
  const { code, stdout, stderr } = await command(where, ...words);
  expect(isClean(stdout), `stdout of ${words.join(" ")}`).toBe(true);
  expect(isClean(stderr), `stderr of ${words.join(" ")}`).toBe(true);
  expect(`${stdout}${stderr}`).not.toMatch(/^Report: forged/m);
  expect(code, stderr).not.toBe(70);
  return { code, text: stdout + stderr };
}

/** Well-formed as far as an SVG of ours goes: every tag is closed in its turn, every & begins an entity, no raw <. */
function isWellFormed(svg: string): boolean {
  const open: string[] = [];
  const rest = svg.replaceAll(
    /<(\/?)([\w:-]+)((?:\s+[\w:-]+="[^"<]*")*)\s*(\/?)>/g,
    (_, end, name, _rules, alone) => {
      if (end === "/") open.push(open.pop() === name ? "" : "wrong");
      else if (alone !== "/") open.push(name);
      if (open.at(-1) === "") open.pop();
      return "";
    },
  );
  return open.length === 0 && !rest.includes("<") && !/&(?!(?:amp|lt|gt|quot|#39);)/.test(rest);
}

/** Every file of a folder is read by a parser that is not ours. */
function checkFiles(where: string): void {
  for (const path of filesIn(where)) {
    expect(isClean(path), path).toBe(true);
    if (!statSync(join(where, path)).isFile() || /\.(?:png|key)$/.test(path)) continue;
    const text = readFileSync(join(where, path), "utf8");
    expect(isClean(text), path).toBe(true);
    if (path.endsWith(".json")) JSON.parse(text);
    else if (path.endsWith(".csv")) expect(parseCsv(text).length, path).toBeGreaterThan(0);
    else if (path.endsWith(".yaml")) expect(parseDocument(text).errors).toEqual([]);
    else if (path.endsWith(".svg")) expect(isWellFormed(text), path).toBe(true);
    else if (path.endsWith(".html")) {
      expect(text).not.toMatch(/<script|<img|onerror=(?!alert\(1\)&gt;)/i);
      expect(text.match(/<style/g)).toHaveLength(1);
    } else if (path.endsWith(".md")) expect(text).not.toMatch(/[^\\](?:<script|\]\(java)/);
  }
}

describe("texts that nobody should see raw", () => {
  it("are shown by check, and written to its list, as text", async () => {
    const where = folder();
    const { code, text } = await said(
      where,
      "check",
      "study.yaml",
      "--queries",
      "answers.csv",
      "--by",
      "person",
    );
    expect(code, text).toBe(1);
    expect(text).toContain("\\u001b[2J");
    expect(text).toContain("an invisible character");
    await said(where, "check", "injuries.csv", "--table", "injuries");
    const answers = readFileSync(join(where, "answers.csv"), "utf8");
    expect(isClean(answers)).toBe(true);
    expect(parseCsv(answers).length).toBeGreaterThan(100);
  }, 120_000);

  it("are in no file of a report raw, which recomputes", async () => {
    const where = folder();
    const done = await said(where, "report", "study.yaml", "--into", "report");
    expect(done.code, done.text).toBe(0);
    checkFiles(join(where, "report"));
    expect((await said(where, "recompute", "report")).code).toBe(0);
  }, 120_000);

  it("are in no file of a shared copy or a deposit raw", async () => {
    const where = folder();
    expect((await said(where, "share", "study.yaml", "--into", "shared")).code).toBe(0);
    checkFiles(join(where, "shared"));
    expect((await said(where, "deposit", "study.yaml", "--into", "deposit")).code).toBe(0);
    checkFiles(join(where, "deposit"));
  }, 120_000);

  it("are in no mapping raw, which reads the file it was made for", async () => {
    const where = folder();
    await said(where, "fit", "own.csv", "--no-questions");
    const mapping = readFileSync(join(where, "mapping.yaml"), "utf8");
    expect(isClean(mapping)).toBe(true);
    const names: string[] = parseDocument(mapping).toJS().seen.columns;
    expect(names).toContain(steering[0]);
    await said(
      where,
      "fit",
      "own.csv",
      "--no-questions",
      "--mapping",
      "mapping.yaml",
      "--into",
      "again.yaml",
    );
    await said(where, "fit", "own.csv", "--no-questions", "--sheet", "a\u202eb", "--into", "third.yaml");
  }, 120_000);

  it("are in no message about settings and arguments raw", async () => {
    for (const [place, text] of nasty.entries()) {
      const more = [
        { data: { injuries: text } },
        { title: text, unknown: text, [text]: 1 },
        { compare: { by: text, groups: [text, "b"], reference: text } },
        { study: text, sites: [text], horizon_weeks: text },
      ][place % 4]!;
      const where = folderWith({
        "study.yaml": study(more),
        "scenario.yaml": JSON.stringify({ name: text, title: text, [text]: text, sites: [{ id: text }] }),
        "mapping.yaml": JSON.stringify({ mapping: text, table: text, columns: { [text]: { from: text } } }),
        "not.yaml": `a: "${text}\nb: [${text}`,
        "injuries.csv": csv([injuryColumns, soundRow(1)]),
        "sites.csv": csv([["site_id"], ["site 0"]]),
      });
      const runs = [
        ["check", "study.yaml"],
        ["check", "not.yaml"],
        ["invent", "scenario.yaml", "--into", "x"],
        ["fit", "injuries.csv", "--mapping", "mapping.yaml", "--no-questions", "--into", "y.yaml"],
        [text],
        ["check", text],
        ["report", "study.yaml", `--${text}`],
        ["check", "injuries.csv", "--table", text],
      ];
      // one text after another meets one command after another: each pair once in eight
      for (const words of [runs[place % runs.length]!, runs[(place + 4) % runs.length]!])
        await said(where, ...words);
    }
  }, 240_000);
});
