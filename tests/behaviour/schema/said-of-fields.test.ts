import { describe, expect, it } from "vitest";
import { z } from "zod";
import { type Field, fieldsOf, fieldsSaying, optional, required } from "../../../src/schema/field.js";
import { injuryRow } from "../../../src/schema/injuries.js";
import { concepts } from "../../../src/schema/languages/languages.js";
import { columnsOf, placedFields, sharedFields } from "../../../src/schema/sheet-places.js";
import { singleSheetRow } from "../../../src/schema/single-sheet.js";
import { type Table, tables } from "../../../src/schema/tables.js";
import { seededGenerator } from "../../../src/statistics/shared/random.js";
import { declaredCells } from "../../../src/synthetic/declared-cells.js";

const all = Object.values(tables as unknown as Readonly<Record<string, Table>>).flatMap(({ name, fields }) =>
  fields.map((field) => ({ ...field, place: `${name}.${field.name}`, besides: fields })),
);
const odd = (isOdd: (field: (typeof all)[number]) => boolean) => all.filter(isOdd).map(({ place }) => place);

describe("what is said of a field holds together", () => {
  it("invented cells and spellings are terms of the field", () => {
    const said = ({ invented, spellings = {} }: Field) => [
      ...(typeof invented === "object" && "weights" in invented ? Object.keys(invented.weights) : []),
      ...(typeof invented === "object" && "always" in invented ? [String(invented.always)] : []),
      ...Object.values(spellings),
    ];
    expect(
      odd(
        (field) =>
          field.terms !== undefined && said(field).some((term) => !field.terms!.includes(String(term))),
      ),
    ).toEqual([]);
  });

  it("signs speak of known concepts, precisions are fields of the same table", () => {
    const known: readonly string[] = concepts;
    const spoken = ({ header }: Field) =>
      header === "own-name" ? [] : header.flatMap(({ needs, also = [] }) => [...needs, ...also]);
    expect(odd((field) => spoken(field).some((concept) => !known.includes(concept)))).toEqual([]);
    expect(
      odd(
        ({ precision, besides }) =>
          precision !== undefined && !besides.some(({ name }) => name === precision),
      ),
    ).toEqual([]);
  });

  it("only dates say when, only numbers a unit, and there is one injury and one last contact a table", () => {
    expect(odd(({ kind, when }) => (kind === "date" || kind === "period") !== (when !== undefined))).toEqual(
      [],
    );
    expect(odd(({ unit, minimum }) => unit !== undefined && minimum === undefined)).toEqual([]);
    for (const { name, fields } of [tables.injuries, tables.single_sheet] as readonly Table[]) {
      for (const when of ["injury", "last-contact"])
        expect(
          fields.filter((field) => field.when === when),
          `${name} ${when}`,
        ).toHaveLength(1);
    }
  });

  it("each field of the injuries stands once in the sheet, is read from one of its columns, or may be blank", () => {
    const columns = Object.keys(singleSheetRow.shape);
    expect(placedFields.filter(({ column }) => !columns.includes(column))).toEqual([]);
    const shared = sharedFields.map(({ column }) => column);
    expect(new Set(shared).size).toBe(shared.length);
    const placed = new Set<string>(placedFields.map(({ field }) => field));
    const left = fieldsOf(injuryRow as unknown as z.ZodObject).filter(({ name }) => !placed.has(name));
    expect(left.filter((field) => field.required)).toEqual([]);
  });
});

describe("lists are derived from what fields say", () => {
  it("in the order of the table", () => {
    expect(fieldsSaying(injuryRow, { covariate: "number" })).toEqual(["age_at_injury", "years_climbing"]);
    expect(fieldsSaying(injuryRow, { ofPerson: true, covariate: "groups" })).toEqual(["site_id", "sex"]);
    expect(Object.keys(columnsOf("person"))).toEqual(["sex", "age"]);
  });

  it("what is missing, misspelt or of another kind does not compile", () => {
    const date = {
      description: "",
      example: "",
      sharing: { move: "own" },
      header: "own-name",
      invented: "blank",
    } as const;
    const choice = { ...date, sharing: "keep", cells: "own-words" } as const;
    const make = [
      // @ts-expect-error a date that does not say when
      () => optional.date(date),
      // @ts-expect-error free words that are kept
      () => optional.text({ ...date, sharing: "keep" }),
      // @ts-expect-error a property that no field has
      () => required.date({ ...date, when: "course", timd: true }),
      // @ts-expect-error weights of a term that the field has not
      () => optional.choice(["yes", "no"], { ...choice, invented: { weights: { maybe: 1 } } }),
      // @ts-expect-error a choice that does not say in what words sites write it
      () => optional.choice(["yes", "no"], { ...date, sharing: "keep" }),
    ];
    expect(make).toHaveLength(5);
  });
});

describe("an invented field that is added", () => {
  const rock = optional.choice(["granite", "limestone", "sandstone"], {
    description: "Rock of the crag",
    example: "granite",
    cells: "own-words",
    sharing: "keep",
    header: "own-name",
    invented: { weights: { granite: 3, limestone: 1 } },
  });
  const common = ["grip", "mechanism", "setting", "prior_injury_same_finger", "other_side_ever_injured"];
  const cellsOf = (row: z.ZodObject) => {
    const generator = seededGenerator(7, 0);
    const draw = declaredCells(row, { seed: 7, stream: 0, common });
    const rows = Array.from({ length: 2_000 }, () => draw(generator) as Readonly<Record<string, unknown>>);
    return { rows, next: generator.uniform() };
  };

  it("leaves every other cell as it was, and follows its weights", () => {
    const before = cellsOf(injuryRow as unknown as z.ZodObject);
    const after = cellsOf(z.strictObject({ crag_rock: rock, ...injuryRow.shape }) as unknown as z.ZodObject);
    expect(after.rows.map(({ crag_rock: _, ...others }) => others)).toEqual(before.rows);
    expect(after.next).toBe(before.next);
    const share = after.rows.filter(({ crag_rock }) => crag_rock === "granite").length / 2_000;
    // 3 in 4, within four standard errors of a share of 2,000
    expect(Math.abs(share - 0.75)).toBeLessThan(4 * Math.sqrt((0.75 * 0.25) / 2_000));
  });
});
