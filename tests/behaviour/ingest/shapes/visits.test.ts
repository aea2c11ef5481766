import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readCohort } from "../../../../src/ingest/index.js";
import { type Mapping, mappingText, readMapping } from "../../../../src/ingest/mapping/index.js";
import { queryText } from "../../../../src/schema/index.js";
import { answered, options, proposalFor, readBy } from "./open-sheet.js";

const readAsVisits = async (file: string, told: Parameters<typeof readBy>[2] = {}) =>
  readBy(file, answered((await proposalFor(file)).mapping, ["visit"]), told);

const injuriesOf = ({ tables }: ReturnType<typeof readCohort>) =>
  tables.injuries.map(({ values }) => [
    values.injury_id,
    values.injury_date,
    values.finger,
    values.grade,
    values.last_contact_date,
  ]);

describe("one row a visit", () => {
  it("is asked about, with the numbers of people, rows and injuries", async () => {
    const { mapping } = await proposalFor("01-one-row-a-visit.csv");
    expect(mapping.undecided).toHaveLength(1);
    const [{ question, choices }] = mapping.undecided as [Mapping["undecided"][0]];
    expect(question).toContain("6 people in 20 rows");
    expect(choices.visit).toContain("20 rows are visits of 7 injuries");
    expect(choices.injury).toContain("20 in all");
  });

  it("becomes injuries and visits, and every row is accounted for", async () => {
    const read = await readAsVisits("01-one-row-a-visit.csv");
    expect(injuriesOf(read)).toEqual([
      ["V01-1", "2024-01-12", "ring", "3", "2024-10-14"],
      ["V02-1", "2024-01-20", "middle", "2", "2024-03-18"],
      ["V03-1", "2024-02-03", "ring", "1", "2024-06-10"],
      ["V03-2", "2024-08-15", "middle", "2", "2024-11-25"],
      ["V04-1", "2024-02-18", "ring", "3", "2024-05-15"],
      ["V05-1", "2024-03-02", "ring", "2", "2024-05-27"],
      ["V06-1", "2024-03-09", "middle", "1", "2024-04-15"],
    ]);
    expect(read.accounts).toMatchObject([
      { read: 20, used: 20, setAside: [], folded: { injuries: 7, further: 13, carried: [] } },
    ]);
    const { visits, imaging, treatments } = read.tables;
    expect(visits).toHaveLength(20);
    expect(visits.filter(({ values }) => values.full_climbing === "yes")).toHaveLength(8);
    expect(imaging.map(({ values }) => values.distance_mm).slice(0, 4)).toEqual([3.4, 2.9, 2.4, 2.1]);
    expect(imaging).toHaveLength(18);
    expect(treatments.map(({ values }) => values.treatment)).toEqual([
      "ring",
      "tape",
      "tape",
      "tape",
      "ring",
      "ring",
      "tape",
    ]);
    expect(read.queries.filter(({ severity }) => severity !== "look-at")).toEqual([]);
  });

  it("cells written once are read in the other rows and counted; a copy and a contradiction are set aside", async () => {
    const read = await readAsVisits("02-visits-filled-in-once.csv");
    expect(injuriesOf(read)).toEqual([
      ["K1-1", "2024-02-01", "ring", "3", "2024-04-29"],
      ["K2-1", "2024-02-10", "middle", "2", "2024-05-22"],
      ["K4-1", "2024-03-02", "ring", "2", "2024-05-06"],
      ["K4-2", "2024-09-14", "ring", "1", "2024-10-14"],
      ["K5-1", "2024-03-08", "middle", "2", "2024-06-17"],
    ]);
    const [account] = read.accounts;
    expect(account).toMatchObject({ read: 16, used: 13, folded: { injuries: 5, further: 8 } });
    expect(account!.setAside.map(({ row, query }) => [row, query.code, query.column])).toEqual([
      [7, "row-repeated", null],
      [9, "visits-differ", "Grad"],
      [10, "visits-differ", "Grad"],
    ]);
    expect(account!.folded!.carried).toContainEqual({ column: "finger", cells: 8 });
  });

  it("a visit that is refused leaves its row used where the injury is read from it", async () => {
    const sheet = readFileSync(new URL("01-one-row-a-visit.csv", import.meta.url), "utf8");
    const lines = sheet.split("\n");
    const seen = (line: string, day: string) => line.split(";").with(8, day).join(";");
    const days: Readonly<Record<number, string>> = { 1: "24.12.2023", 3: "27.12.2023" };
    const changed = lines.map((line, i) => (days[i] === undefined ? line : seen(line, days[i]))).join("\n");
    const { accounts, tables, queries } = await readAsVisits("01-one-row-a-visit.csv", { changed });
    expect(tables.injuries).toHaveLength(7);
    expect(tables.visits).toHaveLength(18);
    const [account] = accounts;
    expect(account).toMatchObject({
      read: 20,
      used: 19,
      folded: { injuries: 7, further: 12, visitsNotUsed: 1 },
    });
    expect(account!.setAside.map(({ row, query }) => [row, query.code])).toEqual([
      [4, "event-before-injury"],
    ]);
    const refused = queries.filter(({ code }) => code === "event-before-injury");
    expect(refused.map(({ row, severity }) => [row, severity])).toEqual([
      [2, "look-at"],
      [4, "set-aside"],
    ]);
    expect(queryText(refused[0]!)).toContain(
      "the visit is not used. What the row says of the injury is used.",
    );
  });

  it("a contradiction is settled by the site's answer", async () => {
    const { csv } = await readAsVisits("02-visits-filled-in-once.csv");
    const [head, ...lines] = csv.trimEnd().split(/\r?\n/);
    const columns = head!.split(",");
    const place = (name: string) => columns.findIndex((column) => column.replaceAll('"', "") === name);
    const about = lines.find((line) => line.includes("visits-differ"))!;
    const cells = about.split(",");
    const id = cells[place("id")]!;
    const read = await readAsVisits("02-visits-filled-in-once.csv", {
      answersText: `id,answer,new_value\n${id},change,1\n`,
    });
    expect(read.answers).toMatchObject({ used: { change: 1 }, cellsChanged: 1 });
    expect(injuriesOf(read)).toContainEqual(["K3-1", "2024-02-20", "ring", "1", "2024-03-20"]);
    expect(read.accounts).toMatchObject([{ read: 16, used: 15, folded: { injuries: 6, further: 9 } }]);
  });

  it("a mapping answered with an injury a row is refused with the way out, and proposed anew from there", async () => {
    const file = "01-one-row-a-visit.csv";
    const { mapping } = await proposalFor(file);
    const one = answered(mapping, ["injury"]);
    const text = mappingText(one, { head: [], settings: {}, columns: {} });
    expect(() => readMapping({ file: "mapping.yaml", text })).toThrow(/says that a row is an injury/);
    const again = await proposalFor(file, { earlier: one });
    expect(again.mapping.one_row).toBe("injury");
    expect(again.mapping.columns.date).toBeUndefined();
  });
});

describe("the same injury on several rows of a sheet in our columns", () => {
  const header = "person,injury_date,hand,finger,pulleys,grade,full,last_contact";
  const read = (...rows: readonly string[]) =>
    readCohort(
      [
        {
          table: "single_sheet",
          file: "sheet.csv",
          bytes: new TextEncoder().encode([header, ...rows, ""].join("\n")),
        },
      ],
      options,
    );

  it("is never counted twice: all of them are set aside until it is known which is right", () => {
    const { tables, accounts } = read(
      "A,2024-02-05,left,ring,A2,1,2024-03-18,2024-06-01",
      "A,2024-02-05,left,ring,A2,1,2024-03-18,2024-12-06",
      "B,2024-02-05,left,ring,A2,1,2024-03-18,2024-12-06",
    );
    expect(tables.injuries.map(({ values }) => values.person_id)).toEqual(["B"]);
    expect(accounts[0]!.setAside.map(({ row, query }) => [row, query.code, query.facts.rows])).toEqual([
      [2, "injury-twice", "2, 3"],
      [3, "injury-twice", "2, 3"],
    ]);
  });

  it("of rows equal in every cell the first is used", () => {
    const row = "A,2024-02-05,left,ring,A2,1,2024-03-18,2024-06-01";
    const { tables, accounts } = read(row, row, row);
    expect(tables.injuries).toHaveLength(1);
    expect(
      accounts[0]!.setAside.map(({ row: at, query }) => [at, query.code, query.facts.other_row]),
    ).toEqual([
      [3, "row-repeated", 2],
      [4, "row-repeated", 2],
    ]);
  });
});
