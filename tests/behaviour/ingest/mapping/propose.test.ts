import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { proposeMapping } from "../../../../src/ingest/mapping/propose/propose.js";
import { readMapping } from "../../../../src/ingest/mapping/read-mapping.js";
import { sheetOf, wordings } from "./sheets.js";

const propose = (text: string) => proposeMapping(sheetOf(text), { name: "trial", table: "single_sheet" });

/** A sheet of a few columns with what every row needs, and some of its own. */
function sheetWith(columns: Readonly<Record<string, readonly string[]>>): string {
  const all: Readonly<Record<string, readonly string[]>> = {
    Patient: ["p1", "p2", "p3", "p4"],
    "Injury date": ["2023-01-31", "2023-02-01", "2023-03-02", "2023-04-05"],
    Hand: ["left", "right", "left", "right"],
    Finger: ["ring", "middle", "ring", "index"],
    Pulley: ["A2", "A2", "A4", "A2"],
    Grade: ["3", "2", "2", "1"],
    "Last contact": ["2024-01-31", "2024-02-01", "2024-03-02", "2024-04-05"],
    ...columns,
  };
  const lines = ["p", "p", "p", "p"].map((_, row) =>
    Object.values(all)
      .map((cells) => cells[row] ?? "")
      .join(";"),
  );
  return `${[Object.keys(all).join(";"), ...lines].join("\n")}\n`;
}

const questionsOf = (text: string) => propose(text).mapping.undecided;
const keysAsked = (text: string) =>
  questionsOf(text).flatMap(({ decides }) => decides.map((path) => path.join(".")));

describe("a mapping proposed from a sheet alone", () => {
  it.each(Object.entries(wordings))("%s: the mapping that was looked through by eye", (name, text) => {
    const short = name.toLowerCase().replaceAll(/[^a-z]+/g, "-");
    const golden = readFileSync(new URL(`golden/${short}.yaml`, import.meta.url), "utf8");
    const expected = readMapping({ file: `${short}.yaml`, text: golden }, { undecided: "kept" });
    const { mapping } = proposeMapping(sheetOf(text), { name: short, table: "single_sheet" });
    const open = ({ undecided }: typeof mapping) => undecided.map((each) => ({ ...each, answer: null }));
    expect({ ...mapping, undecided: open(mapping) }).toEqual({ ...expected, undecided: open(expected) });
  });

  it("says why: what the header says, how many cells fit, how the dates lie to each other", () => {
    const guess = propose(wordings.German).guesses.find(({ field }) => field.name === "injury_date");
    expect(guess).toMatchObject({ confidence: "sure", sources: ["Unfalldatum"] });
    expect(guess?.evidence).toEqual([
      'header "Unfalldatum"',
      "dates in 4 of 4 cells",
      'all on or before "Letzter Kontakt"',
    ]);
  });

  it("a sheet with nothing to ask has no question", () => {
    expect(questionsOf(sheetWith({}))).toEqual([]);
  });

  it.each([
    {
      name: "dates that could be either way round",
      columns: { "Injury date": ["03/04/2023", "05/06/2023", "07/08/2023", "02/03/2023"] },
      asked: ["date_order"],
    },
    {
      name: "a grade 4 without its letter",
      columns: { Grade: ["IV", "3", "2", "1"] },
      asked: ["columns.grade.values.IV"],
    },
    {
      name: "fingers counted up to four",
      columns: { Finger: ["4", "3", "2", "4"] },
      asked: ["columns.finger.numbered"],
    },
    {
      name: "a span of pulleys",
      columns: { Pulley: ["A2-A4", "A2", "A4", "A2"] },
      asked: ["columns.pulleys.values.A2-A4"],
    },
    {
      name: "a return that could be any",
      columns: { Return: ["2023-06-01", "2023-07-01", "", "2023-08-01"] },
      asked: ["meaning.Return"],
    },
    {
      name: "distances in a unit that is not said and not usual",
      columns: { "TPD rest": ["0.21", "0.28", "0.11", "0.09"] },
      asked: ["columns.distance_rest_first.unit", "day_of_scan.first"],
    },
    {
      name: "bowstringing yes or no",
      columns: { Bowstringing: ["yes", "no", "no", "yes"] },
      asked: ["columns.bowstringing.values.yes"],
    },
    {
      name: "a dash for a return, which could mean not yet or not known",
      columns: { "Full climbing": ["2023-06-01", "-", "2023-07-01", "2023-08-01"] },
      asked: ["columns.full.values.-"],
    },
    {
      name: "a column named like ours whose cells are something else",
      columns: { Treatment: ["7", "8", "9", "5"] },
      asked: ["meaning.Treatment"],
    },
    {
      name: "days by number",
      columns: { "Injury date": ["44957", "44958", "44987", "45021"] },
      asked: ["day_numbers_from"],
    },
    {
      name: "dates after the injury under a name that says nothing",
      columns: { "Zeta point": ["2023-06-01", "not yet", "2023-07-01", "2023-08-01"] },
      asked: ["meaning.Zeta point"],
    },
    {
      name: "times since the injury under such a name",
      columns: { Zeta: ["8 weeks", "10 wks", "", "3 months"] },
      asked: ["meaning.Zeta"],
    },
    {
      name: "distances under such a name",
      columns: { Zeta: ["2.1 mm", "2,8 mm", "1.1 mm", ""] },
      asked: ["meaning.Zeta"],
    },
    {
      name: "treatments under such a name, not all of them known",
      columns: { Zeta: ["tape", "ring splint", "magic", "surgery"] },
      asked: ["meaning.Zeta"],
    },
    {
      name: "one date in a column that is nearly empty",
      columns: { Zeta: ["", "2023-09-01", "", ""] },
      asked: ["meaning.Zeta"],
    },
    {
      name: "dates of birth under a name that says nothing",
      columns: { Zeta: ["1989-01-31", "1990-02-01", "1999-03-02", "2001-04-05"] },
      asked: ["meaning.Zeta"],
    },
  ])("$name: asked, not guessed", ({ columns, asked }) => {
    expect(keysAsked(sheetWith(columns))).toEqual(asked);
  });

  it("a column that is asked about offers what fits and is free, each with how it would be read", () => {
    const [question] = questionsOf(
      sheetWith({
        "Full climbing": ["2023-06-01", "2023-06-01", "2023-07-01", "2023-08-01"],
        "Zeta (cm)": ["0.21", "0.28", "0.11", "0.09"],
      }),
    );
    expect(question).toMatchObject({
      question: 'What does the column "Zeta (cm)" contain?',
      example: "0.21",
      choices: { distance_rest_first: expect.any(String), not_used: expect.any(String) },
      reads: { distance_rest_first: { unit: "cm" } },
    });
    const [dated] = questionsOf(sheetWith({ Zeta: ["2023-06-01", "2023-06-01", "2023-07-01", ""] }));
    expect(Object.keys(dated?.choices ?? {})).toEqual(expect.arrayContaining(["easy", "full", "previous"]));
    expect(Object.keys(dated?.choices ?? {})).not.toContain("last_contact");
  });

  it.each([
    { full: "Climbing without limits since", easy: "Easy routes from", previous: "Old grade again" },
    { full: "Unlimited climbing", easy: "Careful climbing", previous: "Pre-injury grade on" },
    { full: "No restrictions from", easy: "Protected climbing", previous: "Previous form" },
    { full: "All grips on", easy: "Light climbing", previous: "Usual level reached" },
    { full: "Klettern ohne Einschränkungen ab", easy: "Leichte Routen ab", previous: "Alte Form ab" },
    {
      full: "Alle Griffarten ab",
      easy: "Vorsichtiges Klettern ab",
      previous: "Niveau vor Verletzung erreicht",
    },
    { full: "Escalade sans limite", easy: "Voies faciles", previous: "Niveau d'avant retrouvé" },
    { full: "Escalada sin límites", easy: "Vías fáciles", previous: "Nivel habitual" },
    { full: "Arrampicata senza limiti", easy: "Vie facili", previous: "Livello abituale" },
  ])("returns by their names: $full, $easy, $previous", (names) => {
    const { mapping } = propose(
      sheetWith({
        [names.easy]: ["2023-05-01", "2023-05-02", "2023-06-01", "2023-07-01"],
        [names.full]: ["2023-06-01", "2023-06-02", "2023-07-01", "2023-08-01"],
        [names.previous]: ["2023-07-01", "2023-07-02", "2023-08-01", "2023-09-01"],
      }),
    );
    const { easy, full, previous } = mapping.columns;
    expect({ easy: easy?.from, full: full?.from, previous: previous?.from }).toEqual(names);
    expect(mapping.undecided).toEqual([]);
  });

  it("what is not used is said with what it holds", () => {
    const { leftOut } = propose(sheetWith({ Shoe: ["41", "42", "43", "44"], Empty: ["", "", "", ""] }));
    expect(leftOut).toEqual([
      { name: "Shoe", holds: '"41" ...', filled: 4 },
      { name: "Empty", holds: "empty", filled: 0 },
    ]);
  });

  it("what every row needs and no column is called: asked with the columns that could be", () => {
    const text = sheetWith({}).replace("Last contact", "xyz");
    const [question] = questionsOf(text);
    expect(question?.decides).toEqual([["columns", "last_contact", "from"]]);
    expect(Object.keys(question?.choices ?? {})).toEqual(["xyz"]);
  });

  it("pulleys and their extents in one column do not compete for it", () => {
    const { mapping } = propose(
      sheetWith({ Pulley: ["A2 (complete)", "A2", "A4 (partial)", "A3"] }).replace(
        "Pulley",
        "Pulley (extent)",
      ),
    );
    expect([mapping.columns.pulleys?.from, mapping.columns.pulley_extents?.from]).toEqual([
      "Pulley (extent)",
      "Pulley (extent)",
    ]);
    expect(mapping.undecided).toEqual([]);
  });

  it("a grade from one to another: one of the two, or not known", () => {
    const [question] = questionsOf(sheetWith({ Grade: ["2-3", "2", "3", "1"] }));
    expect(Object.keys(question?.choices ?? {})).toEqual(["2", "3", "unknown", "blank", "ask"]);
  });

  it("a fifth finger decides that the thumb is counted", () => {
    const { mapping } = propose(sheetWith({ Finger: ["D4", "D3", "D5", "D2"] }));
    expect(mapping.columns.finger).toMatchObject({
      numbered: "with_thumb",
      values: { D4: "ring", D5: "little" },
    });
    expect(mapping.undecided).toEqual([]);
  });

  it("the sequence of the dates decides where no figure is over 12", () => {
    const text = sheetWith({
      "Injury date": ["05/01/2023", "06/02/2023", "07/03/2023", "08/04/2023"],
      "Last contact": ["04/02/2023", "05/03/2023", "06/04/2023", "07/05/2023"],
    });
    const { mapping, evidence } = propose(text);
    expect(mapping.date_order).toBe("day-first");
    expect(evidence.date_order).toContain("read month-first, 4 rows would have a date before the injury");
  });

  it("weeks to a return are times since the injury", () => {
    const { mapping } = propose(sheetWith({ "Weeks to full climbing": ["8", "12", "", "26"] }));
    expect(mapping.columns.full).toEqual({ from: "Weeks to full climbing", counted: "weeks" });
  });

  it("the same sheet gives the same mapping, whatever the order of its rows", () => {
    const [header = "", ...rows] = wordings.French.trim().split("\n");
    const columnsOf = (text: string) =>
      Object.entries(propose(text).mapping.columns).map(([field, rule]) => [field, rule.from]);
    expect(columnsOf(`${[header, ...rows.reverse()].join("\n")}\n`)).toEqual(columnsOf(wordings.French));
  });
});
