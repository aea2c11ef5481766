import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { type BuiltReport, buildReport } from "../../../src/cli/build-report.js";
import { command, folderWith } from "./run-command.js";

const k = 5;
const silent = { say: () => {}, notice: () => {}, progress: () => {} };
const demo = (name: string) =>
  fileURLToPath(new URL(`../../../synthetic-data/${name}/study.yaml`, import.meta.url));

/** One row an injury of a sheet made by hand. */
interface HandMade {
  readonly person: string;
  readonly site?: string;
  readonly treatment?: string;
  readonly grade?: string;
  /** Days from the injury to the return; blank for a return that was not seen. */
  /** Hand and finger, as two cells. */
  readonly finger?: string;
  readonly back: number | null;
}

const dayAfter = (days: number) =>
  new Date(Date.UTC(2024, 0, 1) + days * 86_400_000).toISOString().slice(0, 10);

const lines = (rows: readonly HandMade[]) =>
  rows.map(({ person, site = "a", finger = "left,ring", treatment = "ring", grade = "2", back }) =>
    [person, site, "2024-01-01", finger, "A3", grade, treatment, "2024-01-01"]
      .concat(back === null ? "" : dayAfter(back), dayAfter(400))
      .join(","),
  );
const sheet = (rows: readonly HandMade[]) =>
  `person,site,injury_date,hand,finger,pulleys,grade,treatment,treatment_start,full,last_contact\n${lines(rows).join("\n")}\n`;

const study = `study: awkward
title: Awkward
data: { single_sheet: sheet.csv }
compare: { by: BY, groups: GROUPS, reference: REFERENCE, adjust_for: [] }
`;
const studyBy = (by: string, groups: string, reference: string) =>
  study.replace("BY", by).replace("GROUPS", groups).replace("REFERENCE", reference);

const many = (n: number, of: (at: number) => Omit<HandMade, "person">) =>
  Array.from({ length: n }, (_, at): HandMade => ({ person: `P${at}`, ...of(at) }));

const fingersOfOne = ["left", "right"].flatMap((hand) =>
  ["index", "middle", "ring"].map((finger) => `${hand},${finger}`),
);

const awkward = {
  "groups of one to four beside a large one": {
    rows: many(48, (at) => ({
      treatment: at < 24 ? "ring" : "tape",
      grade: ["1", "3", "3", "4a", "4a", "4a", "4b", "4b", "4b", "4b"][at] ?? "2",
      back: at % 11 === 0 ? null : 20 + ((at * 37) % 160),
    })),
    by: studyBy("first_treatment", "[ring, tape]", "tape"),
  },
  "everybody back on the same day": {
    rows: many(30, (at) => ({ treatment: at % 2 ? "ring" : "tape", back: 61 })),
    by: studyBy("first_treatment", "[ring, tape]", "tape"),
  },
  "one site of three people": {
    rows: many(43, (at) => ({ site: at < 3 ? "small" : at < 23 ? "b" : "c", back: 30 + at * 3 })),
    by: studyBy("site_id", "[small, b, c]", "c"),
  },
  "people with several injuries": {
    rows: [...many(40, (at) => ({ treatment: at % 2 ? "ring" : "tape", back: 25 + at * 4 }))].map(
      // six fingers of one person
      (row, at) => (at < 6 ? { ...row, person: "P0", finger: fingersOfOne[at]! } : row),
    ),
    by: studyBy("first_treatment", "[ring, tape]", "tape"),
  },
} as const;

const textOf = (content: string | Uint8Array) =>
  typeof content === "string" ? content : new TextDecoder().decode(content);

/** Columns and keys of what is written that count people, injuries or rows: kept here, apart from the code. */
const counting = new Set(
  `at_risk events censored recorded missing count injuries persons competing_ends lost n readings above n_compared
  n_reference events_compared events_reference blank unknown events_so_far observed read used set_aside analysed
  compared reference milestones competing on_whole_weeks complete overall stayed injuries_with_baseline injuries_read_late
  injuries_with_both`.split(/\s+/),
);

/** Counts of a file that are small, or that make a small one by adding and subtracting. */
function smallIn(path: string, content: string): readonly string[] {
  const found: string[] = [];
  // whole multiples only: no sum and no difference of them lies between 1 and k - 1
  const judge = (name: string, value: unknown) => {
    if (typeof value === "number" && value % k !== 0) found.push(`${path}: ${name} = ${value}`);
  };
  if (path.endsWith(".csv")) {
    const { data } = Papa.parse<Record<string, string>>(content, { header: true, skipEmptyLines: true });
    for (const row of data)
      for (const [name, cell] of Object.entries(row))
        if (counting.has(name) && /^\d/.test(cell)) judge(name, Number(cell));
  }
  if (path === "results.json") {
    const walk = (name: string, value: unknown): void => {
      if (counting.has(name)) judge(name, value);
      if (value === null || typeof value !== "object") return;
      for (const [key, inner] of Object.entries(value)) walk(Array.isArray(value) ? name : key, inner);
    };
    const { plan: _, ...results } = JSON.parse(content) as Record<string, unknown>;
    walk("", results);
  }
  if (/\.(html|svg|vl\.json|txt)$/.test(path))
    for (const [said] of content.matchAll(
      /\b[1-4] (injur|people|person|back\b|lost\b|not back|returns?\b)[a-z]*/g,
    ))
      if (!said.startsWith("1 person")) found.push(`${path}: ${said}`);
  return found;
}

interface Point {
  readonly day: number;
  readonly returned: number;
}
interface Told {
  readonly curves: readonly {
    readonly curves: readonly { readonly id: string; readonly points: readonly Point[] }[];
  }[];
  readonly distances: { readonly pairs: readonly unknown[] } | null;
  readonly accounting: {
    readonly tables: readonly { readonly reasons: readonly { readonly rows: readonly number[] }[] }[];
  };
  readonly queries: readonly { readonly rows: readonly number[] }[];
}

const fileOf = ({ files }: BuiltReport, path: string) =>
  textOf(files.find((file) => file.path.replace("synthetic-", "") === path)!.content);
const toldIn = (report: BuiltReport) => JSON.parse(fileOf(report, "results.json")) as Told;

/** Panels beside one another share an axis, on which the days of each begin a pitch later; its labels say by how much. */
const pitchOf = (spec: string): number => {
  const found = /datum\.value - ([\d.]+) \* floor/.exec(spec);
  return found === null ? Number.POSITIVE_INFINITY : Number(found[1]);
};
const dayInPanel = (place: number, pitch: number): number =>
  pitch === Number.POSITIVE_INFINITY
    ? place
    : Math.round(place - pitch * Math.floor((place + 0.001) / pitch));

/** Days and shares of every drawn curve are those of the table. */
function expectFiguresAgree(report: BuiltReport): void {
  const { data } = Papa.parse<Record<string, string>>(fileOf(report, "tables/curve-points.csv"), {
    header: true,
    skipEmptyLines: true,
  });
  const known = new Set(data.map(({ day, returned }) => `${Number(day)} ${Number(returned)}`));
  const days = new Set(data.map(({ day }) => Number(day)));
  const drawn: string[] = [];
  const walk = (value: unknown, pitch: number): void => {
    if (value === null || typeof value !== "object") return;
    const { day: place, share } = value as { readonly day?: unknown; readonly share?: unknown };
    if (typeof place === "number" && typeof share === "number") {
      const day = dayInPanel(place, pitch);
      drawn.push(`${day} ${share}`);
      expect(days).toContain(day);
      expect(known).toContain(`${day} ${share}`);
    }
    for (const inner of Object.values(value)) walk(inner, pitch);
  };
  for (const { path, content } of report.files)
    if (/return-curve.*\.vl\.json$/.test(path)) walk(JSON.parse(textOf(content)), pitchOf(textOf(content)));
  expect(drawn.length).toBeGreaterThan(3);
}

function expectNoSmallCell(report: BuiltReport): void {
  expect(report.files.flatMap(({ path, content }) => smallIn(path, textOf(content)))).toEqual([]);
  const told = toldIn(report);
  expect(told.distances?.pairs ?? []).toEqual([]);
  expect(told.accounting.tables.flatMap(({ reasons }) => reasons.flatMap(({ rows }) => rows))).toEqual([]);
  expect(told.queries.flatMap(({ rows }) => rows)).toEqual([]);
  const days = told.curves.flatMap(({ curves }) =>
    curves.flatMap(({ points }) => points.map(({ day }) => day)),
  );
  expect(days.filter((day) => day % 7 !== 0)).toEqual([]);
  expectFiguresAgree(report);
}

const reportOn = (path: string, choice: "written" | "leave-out") =>
  buildReport(path, { choice, smallest: k }, silent);

describe("a report without small cells", () => {
  it.each(["one-clinic", "three-sites"])("holds none in any file: the cohort %s", async (name) => {
    const report = await reportOn(demo(name), "leave-out");
    expectNoSmallCell(report);
    expect(fileOf(report, "results.json")).toContain('"small-cell"');
    // the checker finds them where they are
    const exact = await reportOn(demo(name), "written");
    expect(exact.files.flatMap(({ path, content }) => smallIn(path, textOf(content))).length).toBeGreaterThan(
      50,
    );
    expect(exact.results.small_cells.found).toBeGreaterThan(50);
  });

  it.each(Object.entries(awkward))("holds none in any file: %s", async (_, { rows, by }) => {
    const folder = folderWith({ "study.yaml": by, "sheet.csv": sheet(rows) });
    const report = await reportOn(join(folder, "study.yaml"), "leave-out");
    expectNoSmallCell(report);
    // between two days of a curve either nobody of the sheet came back, or so many people
    const all = toldIn(report).curves[0]!.curves[0]!;
    for (const [at, { day }] of all.points.entries()) {
      const before = all.points[at - 1]?.day ?? -1;
      const people = new Set(
        (rows as readonly HandMade[])
          .filter(({ back }) => back !== null && back > before && back <= day)
          .map(({ person }) => person),
      );
      expect(people.size === 0 || people.size >= k).toBe(true);
    }
  });

  it("is chosen on the command line, kept in the manifest, and recomputed by it", async () => {
    const own = folderWith({
      "study.yaml": awkward["one site of three people"].by,
      "sheet.csv": sheet(awkward["one site of three people"].rows),
    });
    const plain = await command(own, "report", "study.yaml", "--into", "plain");
    expect(plain.stdout).toMatch(/Small cells: \d+ counts, days of curves or rows have fewer than 5 people/);
    const left = await command(
      own,
      "report",
      "study.yaml",
      "--into",
      "left",
      "--small-cells",
      "leave-out",
      "--smallest-cell",
      "4",
    );
    expect(left.stdout).toContain("Small cells: none is written");
    expect(await command(own, "recompute", "left")).toMatchObject({ code: 0 });
  });

  it("is refused where everybody would be a small cell", async () => {
    const folder = folderWith({
      "study.yaml": awkward["everybody back on the same day"].by,
      "sheet.csv": sheet(awkward["everybody back on the same day"].rows.slice(0, 4)),
    });
    const { code, stderr } = await command(folder, "report", "study.yaml", "--small-cells", "leave-out");
    expect(code).toBe(3);
    expect(stderr).toContain("Fewer than 5 people are analysed");
  });
});
