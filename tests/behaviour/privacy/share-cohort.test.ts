import { describe, expect, it } from "vitest";
import { defaultSettings, disclosedTables, keyedNames, ruleOf } from "../../../src/privacy/index.js";
import { optional } from "../../../src/schema/field.js";
import { levelRank, scanText, tables as schemas, type Table } from "../../../src/schema/index.js";
import { sheetOf } from "../ingest/sheets.js";
import { committed, copyWith, openKey, otherKey, reading, rowsOf } from "./cohorts.js";

const { plan, read } = committed("three-sites");
const asUsual = copyWith(read);
const linkedTables = ["injuries", "treatments", "imaging", "visits", "sites"] as const;

/** A small cohort with what should not leave, invented. */
const small = reading(
  [
    sheetOf("injuries", [
      {
        notes: "sent by Dr. Ames, mail a.b@example.org",
        age_at_injury: "29",
        years_climbing: "8",
        body_mass_kg: "64.5",
        height_cm: "172",
        level_scale: "french",
        level_before: "7a, then Ames's project",
        level_after: "6c+",
        grade_as_written: "Gr. III",
      },
      {
        injury_id: "P10-1",
        person_id: "P10",
        age_at_injury: "90",
        level_scale: "french",
        level_before: "7 b",
      },
      // the first and last of the site, so that the others lie far from its close
      { injury_id: "P11-1", person_id: "P11", injury_date: "2021-01-05", last_contact_date: "2026-01-05" },
    ]),
    sheetOf("visits", [{ note: "asked about Ames", level_now: "6c" }]),
  ],
  { ...plan, data: {} as typeof plan.data },
);

describe("what a copy holds", () => {
  const copy = copyWith(small);
  const everything = copy.tables.map(({ text }) => text).join("\n");

  it("no id, date, name or free text of the original", () => {
    for (const word of [
      "P09",
      "P10",
      "P11",
      "site-a",
      "Ames",
      "example.org",
      "Gr. III",
      "2024",
      "64.5",
      "172",
    ]) {
      expect(everything, word).not.toContain(word);
    }
    expect(
      scanText(everything)
        .map(({ kind }) => kind)
        .filter((kind) => kind !== "calendar date" && kind !== "long number"),
    ).toEqual([]);
    expect(JSON.stringify(copy.disclosure)).not.toMatch(/Ames|P09|P10|2024/);
  });

  it("ages in the middle of their band, 90 and over together", () => {
    expect(
      rowsOf(copy, "injuries")
        .flatMap(({ age_at_injury }) => age_at_injury ?? [])
        .sort(),
    ).toEqual([27, 90]);
    const wider = copyWith(small, { bandYears: 20, oldest: 60 });
    expect(
      rowsOf(wider, "injuries")
        .flatMap(({ age_at_injury }) => age_at_injury ?? [])
        .sort(),
    ).toEqual([29, 60]);
  });

  it("levels that stand on their scale, and no others", () => {
    const levels = rowsOf(copy, "injuries").flatMap(({ level_before, level_after }) => [
      level_before,
      level_after,
    ]);
    expect(levels.filter((level) => level !== null).sort()).toEqual(["6c+", "7b"]);
    for (const level of levels)
      if (typeof level === "string") expect(levelRank(level, "french")).not.toBeNull();
  });

  it("body measures only when asked for, and then in bands", () => {
    expect(Object.keys(rowsOf(copy, "injuries")[0]!)).not.toContain("body_mass_kg");
    const banded = rowsOf(copyWith(small, { body: "banded" }), "injuries").find(
      (row) => row.height_cm !== null,
    );
    expect([banded?.body_mass_kg, banded?.height_cm]).toEqual([62, 172]);
  });

  it("tells what free text seemed to hold, by its kind", () => {
    expect(copy.disclosure.in_texts).toEqual([
      { table: "injuries", column: "notes", kind: "name after a title", texts: 1 },
      { table: "injuries", column: "notes", kind: "e-mail address", texts: 1 },
    ]);
  });
});

describe("the key", () => {
  it("gives the same bytes each time, and other names with another key", () => {
    const [one, same, other] = [asUsual, copyWith(read), copyWith(read, {}, otherKey)];
    expect(same).toEqual({ ...one, siteName: expect.any(Function) });
    const ids = (copy: typeof one) => new Set(rowsOf(copy, "injuries").map(({ injury_id }) => injury_id));
    for (const id of ids(other)) expect(ids(one).has(id)).toBe(false);
  });

  it("keeps who belongs together: injuries of a person, rows of an injury, fingers of one event", () => {
    const copy = copyWith(read, { order: "as-it-was" });
    const told = disclosedTables(read.tables, { settings: defaultSettings, names: keyedNames(openKey) });
    const pattern = (rows: readonly (readonly unknown[])[]) => {
      const codes = new Map<string, number>();
      return rows.map((row) => {
        const key = JSON.stringify(row);
        if (!codes.has(key)) codes.set(key, codes.size);
        return codes.get(key);
      });
    };
    for (const [table, columns] of [
      ["injuries", ["site_id", "person_id"]],
      ["injuries", ["injury_id"]],
      ["injuries", ["event_id"]],
      ["imaging", ["injury_id"]],
      ["visits", ["injury_id"]],
    ] as const) {
      const before = told.tables[table].map(({ values }) =>
        columns.map((column) => (values as Record<string, unknown>)[column]),
      );
      const after = rowsOf(copy, table).map((row) => columns.map((column) => row[column]));
      expect(pattern(after), `${table} ${columns}`).toEqual(pattern(before));
    }
  });

  it.each([
    ["too short", new Uint8Array(16).fill(7)],
    ["all alike", new Uint8Array(32)],
  ])("is refused when it is %s", (_, key) => {
    expect(() => copyWith(read, {}, key)).toThrow(/16 bytes, but 32|not made at random/);
  });
});

describe("the rules of the columns", () => {
  /** Quantities and words that are kept as they are, each looked at: a new one must be decided about here. */
  const keptNumbers = new Set(
    (
      "order hours_per_day hours_per_day_worn days_per_week distance_mm pip_angle_deg dip_angle_deg reading " +
      "pain_rest pain_load quickdash dash prwe michigan_hand single_numeric satisfaction pip_flexion_deg " +
      "pip_extension_deficit_deg dip_flexion_deg grip_kg grip_other_kg finger_force_n finger_force_other_n threshold_mm"
    ).split(" "),
  );

  it("name every identifier, move every date, leave out every text that is no level, keep only numbers decided about", () => {
    for (const name of linkedTables) {
      for (const field of (schemas[name] as Table).fields) {
        const { act } = ruleOf(field, defaultSettings);
        const expected =
          field.kind === "identifier"
            ? "rename"
            : field.kind === "date"
              ? "move"
              : field.kind === "text"
                ? field.name.startsWith("level_")
                  ? "only-on-scale"
                  : field.name.startsWith("definition_")
                    ? "rename"
                    : "leave-out"
                : null;
        if (expected !== null) expect(act, `${name}.${field.name}`).toBe(expected);
        if ((field.kind === "number" || field.kind === "integer") && act === "keep") {
          expect(keptNumbers.has(field.name), `${name}.${field.name}: decide what becomes of it`).toBe(true);
        }
      }
    }
  });

  it("stand at the field: a field that does not say how it is shared does not compile, a table never copied is refused", () => {
    // @ts-expect-error: no word on sharing
    optional.text({ description: "Words", example: "words" });
    // @ts-expect-error: free text may not be kept
    optional.text({ sharing: "keep", description: "Words", example: "words" });
    for (const { name } of linkedTables.flatMap((table) => [...(schemas[table] as Table).fields])) {
      expect(name).not.toMatch(/birth/);
    }
    const [field] = (schemas.single_sheet as Table).fields.filter(({ name }) => name === "injury_date");
    expect(() => ruleOf(field!, defaultSettings)).toThrow("never copied");
  });
});

describe("rare combinations", () => {
  it("are listed by their rows in the copy", () => {
    const { combinations } = asUsual.disclosure;
    expect(combinations.rare_rows.length).toBeGreaterThan(200);
    expect(Math.min(...combinations.rare_rows.map(({ row }) => row))).toBeGreaterThanOrEqual(2);
    const rows = combinations.in_copy.reduce((sum, sizes) => sum + sizes.rows, 0);
    expect(rows).toBe(read.tables.injuries.length);
  });

  it.each([
    ["generalise", "three-sites"],
    ["suppress", "three-sites"],
    ["generalise", "one-clinic"],
    ["suppress", "one-clinic"],
  ] as const)(
    "%s, %s: none is left but where the copy owns up to it, and what it took is told",
    (rare, folder) => {
      const { disclosure } = copyWith(committed(folder).read, { rare, neededByStudy: ["grade"] });
      const { combinations, read_back } = disclosure;
      const isReadBack = read_back.some((each) => each.read_back > each.allowed);
      expect(combinations.rare_rows.length > 0).toBe(isReadBack);
      expect(combinations.made_coarser.length + combinations.cells_left_out.length).toBeGreaterThan(0);
    },
  );

  it("a site left out is not told by raters or visits, and what tells it still counts as known", () => {
    const copy = copyWith(read, { rare: "generalise", k: 90, fields: ["site_id"] });
    const told = copy.disclosure.read_back.find(({ field }) => field === "site")!;
    expect(told.columns).toContain("imaging.rater");
    expect(told.read_back).toBeLessThan(told.read_back_before);
    for (const { rater } of rowsOf(copy, "imaging")) expect(rater).toBe(null);
    expect(rowsOf(copy, "sites")).toEqual([]);
    const known = copy.disclosure.combinations.in_copy.filter(({ classes }) => classes > 0);
    expect(known.reduce((sum, { classes }) => sum + classes, 0)).toBe(told.read_back > told.allowed ? 3 : 1);
  });

  it("a field that cannot be counted is refused by name", () => {
    expect(() => copyWith(read, { fields: ["sex", "notes"] })).toThrow('"notes" cannot be counted');
    expect(() => copyWith(read, { fields: ["injury_year"] })).toThrow("contains no years");
    expect(
      copyWith(read, { fields: ["injury_year"], dates: "shifted" }).disclosure.combinations.fields,
    ).toEqual(["injury_year"]);
  });

  it("an injury of which no cell can be left out that would be enough is left out whole, and counted", () => {
    const { combinations, rows } = copyWith(read, {
      fields: ["sex", "injury_year"],
      dates: "shifted",
      rare: "suppress",
      k: 50,
    }).disclosure;
    expect(combinations.injuries_left_out).toBeGreaterThan(0);
    expect(combinations.rare_rows).toEqual([]);
    const { used, in_copy } = rows.find(({ table }) => table === "injuries")!;
    expect(used - in_copy).toBe(combinations.injuries_left_out);
  });
});

it("a name depends on its key by HMAC-SHA-256", async () => {
  const secret = await crypto.subtle.importKey("raw", openKey, { name: "HMAC", hash: "SHA-256" }, false, [
    "sign",
  ]);
  const signed = await crypto.subtle.sign("HMAC", secret, new TextEncoder().encode('["site","site-a"]'));
  const digits = Buffer.from(signed).toString("hex").slice(0, 24);
  expect(asUsual.siteName("site-a")).toBe(`s${digits}`);
});
