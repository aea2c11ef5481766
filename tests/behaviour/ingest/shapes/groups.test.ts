import { describe, expect, it } from "vitest";
import { answered, proposalFor, readBy } from "./open-sheet.js";

const file = "03-several-injuries-in-a-row.csv";

const injuriesOf = ({ tables }: Awaited<ReturnType<typeof readBy>>) =>
  tables.injuries.map(({ row, values }) => [
    row,
    values.injury_id,
    values.finger,
    values.pulleys.join("|"),
    values.grade,
  ]);

describe("several injuries in a row, in numbered columns", () => {
  it("is asked about by the names of the columns, with the number of injuries", async () => {
    const { mapping } = await proposalFor(file);
    const [first] = mapping.undecided;
    expect(first!.question).toContain(
      "(Finger 1, Pulley 1, Grade 1; Finger 2, Pulley 2, Grade 2; Finger 3, Pulley 3, Grade 3)",
    );
    expect(first!.choices.each).toContain("6 rows hold 10 injuries");
  });

  it("each becomes an injury of the same person and day; a doubt names the column of its own group", async () => {
    const { mapping } = await proposalFor(file);
    // grade IV of the second group is asked about as any other
    const read = await readBy(file, answered(mapping, ["each", "ask"]));
    expect(injuriesOf(read)).toEqual([
      [2, "G1-1", "ring", "A2", "3"],
      [3.1, "G2-2", "ring", "A2", "2"],
      [3.2, "G2-1", "middle", "A4", "1"],
      [4.1, "G3-2", "middle", "A4", "2"],
      [4.2, "G3-3", "ring", "A2", "3"],
      [4.3, "G3-1", "index", "A2", "1"],
      [5, "G4-1", "middle", "A2", "1"],
      [6, "G5-1", "ring", "A2", "2"],
      [7.1, "G6-1", "index", "A2", "1"],
    ]);
    const [account] = read.accounts;
    expect(account).toMatchObject({ read: 10, used: 9, unfoldedFrom: 6 });
    expect(account!.setAside.map(({ row, query }) => [row, query.code, query.column])).toEqual([
      [7.2, "grade-without-letter", "Grade 2"],
    ]);
    const { tables } = read;
    const days = new Set(
      tables.injuries
        .filter(({ values }) => values.person_id === "G3")
        .map(({ values }) => values.injury_date),
    );
    expect([...days]).toEqual(["2024-03-18"]);
  });

  it("read as one injury a row, what is left out is counted by column", async () => {
    const { mapping } = await proposalFor(file, { groups: "first" });
    expect(mapping.undecided.every(({ decides }) => decides[0]![0] !== "injuries_in_row")).toBe(true);
    const read = await readBy(file, mapping);
    const [account] = read.accounts;
    expect(account).toMatchObject({ read: 6, used: 6 });
    expect(account!.columnsNotUsed).toEqual(
      expect.arrayContaining([
        { column: "Finger 2", filled: 3 },
        { column: "Grade 3", filled: 1 },
      ]),
    );
  });

  it("numbered columns of ticks or of one finger are no groups", async () => {
    const { groupsInRow } = await import("../../../../src/ingest/mapping/propose/groups-in-row.js");
    const sheet = (header: string, ...rows: readonly string[]) => ({
      columns: header.split(";").map((name, place) => ({ name, place, unit: null })),
      records: rows.map((row, i) => ({ row: i + 2, cells: row.split(";"), isHidden: false })),
    });
    expect(groupsInRow(sheet("ID;Finger 1;Finger 2;Finger 3", "a;x;;", "b;;x;"))).toBeNull();
    expect(groupsInRow(sheet("ID;Finger;Treatment 1;Treatment 2", "a;ring;tape;ring"))).toBeNull();
    expect(groupsInRow(sheet("ID;1. Finger;1. Grade;2. Finger;2. Grade", "a;ring;3;;"))).toEqual([
      ["1. Finger", "1. Grade"],
      ["2. Finger", "2. Grade"],
    ]);
    expect(groupsInRow(sheet("ID;Finger;Grade;Finger (2);Grade (2)", "a;ring;3;middle;1"))).toEqual([
      ["Finger", "Grade"],
      ["Finger (2)", "Grade (2)"],
    ]);
  });
});
