import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readCohortForSite, type SourceFile, StopError } from "../../../src/ingest/index.js";
import { cellCodes, rowCodes } from "../../../src/schema/data-query.js";
import { sheetOf, study } from "../../behaviour/ingest/sheets.js";

const row = fc.record({
  injury_id: fc.constantFrom("i1", "i2", "i3", "", "i4"),
  person_id: fc.constantFrom("p1", "p2", "p3"),
  grade: fc.constantFrom("3", "IV", "2", "?"),
  finger: fc.constantFrom("ring", "thumb", "4"),
  age_at_injury: fc.constantFrom("", "16", "thirty"),
});
type Row = Readonly<Record<string, string>>;
const seeded = { seed: 2024, numRuns: 80 };

/** What each id says, rows and places apart. */
const told = (sources: readonly SourceFile[]) =>
  readCohortForSite(sources, study)
    .open.map(({ id, person, query }) => [id, person, query.code, query.column, query.found].join("|"))
    .sort();
const injuries = (rows: readonly Row[]) => [sheetOf("injuries", rows)];

/** Doubts about one row alone. */
const rowCodesAndCells = new Set<string>([...rowCodes, ...cellCodes]);

/** Doubts whose words hang on the other rows of the file. */
const isOfOneRow = (line: string) =>
  !/identifier-twice|possible|same|contradicts|duplicate|ids-|heap|digit/.test(line);

describe("ids of doubts", () => {
  it("order of rows is immaterial: each doubt keeps its id", () => {
    fc.assert(
      fc.property(
        fc.array(row, { minLength: 1, maxLength: 8 }),
        fc.infiniteStream(fc.nat()),
        (rows, order) => {
          const keyed = rows.map((each) => ({ each, key: order.next().value as number }));
          const shuffled = keyed.sort((one, other) => one.key - other.key).map(({ each }) => each);
          const ofOneRow = (found: readonly string[]) => found.filter(isOfOneRow);
          expect(ofOneRow(told(injuries(shuffled)))).toEqual(ofOneRow(told(injuries(rows))));
        },
      ),
      seeded,
    );
  });

  it("no id is given twice, and a second reading gives the same ids", () => {
    fc.assert(
      fc.property(fc.array(row, { maxLength: 8 }), (rows) => {
        const sources = [sheetOf("injuries", [{}, ...rows])];
        const ids = readCohortForSite(sources, study).open.map(({ id }) => id);
        expect(new Set(ids).size).toBe(ids.length);
        expect(readCohortForSite(sources, study).open.map(({ id }) => id)).toEqual(ids);
      }),
      seeded,
    );
  });

  it("answering every doubt 'leave-out' leaves no row that is asked about, and the account balances", () => {
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 6 }), (rows) => {
        const sources = injuries(rows);
        const { open } = readCohortForSite(sources, study);
        const lines = ["id,answer", ...open.map(({ id }) => `${id},leave-out`)].join("\n");
        const answers = { file: "answers.csv", bytes: new TextEncoder().encode(lines) };
        const { accounts, answers: account } = readCohortForSite(sources, { ...study, answers });
        expect(account?.used["leave-out"]).toBe(open.length);
        expect(accounts[0]!.read).toBe(accounts[0]!.used + accounts[0]!.setAside.length);
        expect(accounts[0]!.setAside.every(({ query }) => query.code === "left-out-by-answer")).toBe(true);
      }),
      seeded,
    );
  });

  it("the order of the answers is immaterial, each is accounted for, and doubts about other rows keep their ids", () => {
    const said = fc.constantFrom(
      "",
      "stands",
      "leave-out",
      "change:3",
      "change:2",
      "change:blank",
      "perhaps",
    );
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), fc.infiniteStream(said), (rows, says) => {
        const sources = injuries(rows);
        const { open } = readCohortForSite(sources, study);
        const lines = open.map(({ id }) => {
          const [answer, value = ""] = (says.next().value as string).split(":");
          return { text: `${id},${answer},${value}`, answer };
        });
        const read = (given: readonly string[]) =>
          readCohortForSite(sources, {
            ...study,
            answers: {
              file: "answers.csv",
              bytes: new TextEncoder().encode(["id,answer,new_value", ...given, ""].join("\n")),
            },
          });
        const texts = lines.map(({ text }) => text);
        const [once, turned] = [read(texts), read([...texts].reverse())];
        expect(turned.tables).toEqual(once.tables);
        expect(turned.answers).toEqual(once.answers);
        expect(once.answers?.read).toBe(lines.length);
        const touched = new Set(
          open.flatMap(({ query }, place) =>
            /^(change|leave-out)/.test(lines[place]!.answer!) ? [query.row] : [],
          ),
        );
        const still = new Set(once.open.map(({ id }) => id));
        const untouched = open.filter(
          ({ query }, place) =>
            !touched.has(query.row) && lines[place]!.answer !== "stands" && rowCodesAndCells.has(query.code),
        );
        for (const { id } of untouched) expect(still.has(id)).toBe(true);
      }),
      seeded,
    );
  });

  it("a file of answers may hold anything: it is accounted for line by line, or stops the run with its reason", () => {
    const piece = fc.constantFrom(
      "id",
      "answer",
      "new_value",
      "stands",
      "change",
      "leave-out",
      "__proto__",
      "=1+1",
      '"',
      ";",
      ",",
      "\t",
      "\n",
      "\r\n",
      "q-0000-0000-0000",
      "\u202e",
      "\0",
      "\ud800",
      "<b>",
    );
    const text = fc
      .array(fc.oneof(piece, fc.string()), { maxLength: 40 })
      .map((parts) => new TextEncoder().encode(parts.join("")));
    const headed = text.map((bytes) => Buffer.concat([Buffer.from("id,answer,new_value,rule\n"), bytes]));
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 300 }), text, headed), (bytes) => {
        try {
          const { answers, accounts } = readCohortForSite([sheetOf("injuries", [{ grade: "IV" }])], {
            ...study,
            answers: { file: "answers.csv", bytes },
          });
          const { used, notUsed, blank, repeated, read } = answers!;
          const told = [...Object.values(used), ...Object.values(notUsed), blank, repeated];
          expect(told.reduce((sum, n) => sum + n, 0)).toBe(read);
          expect(accounts[0]).toMatchObject({ read: 1, used: 0 });
        } catch (error) {
          expect(error).toBeInstanceOf(StopError);
        }
      }),
      { seed: 2024, numRuns: 300 },
    );
  });
});
