import { z } from "zod";
import { type Field, fieldsOf, optional, required } from "../../src/schema/field.js";
import type { Table } from "../../src/schema/tables.js";
import { drawsOf } from "./draws.js";

const drawsARow = 20;
const sites = ["north", "south", "east", "west"] as const;
const gradesInRoman = ["I", "II", "III", "IV"] as const;
const treatments = ["tape", "ring", "surgery"] as const;
const pulleys = ["A2", "A3", "A4"] as const;
const sexes = ["f", "m"] as const;

const told = {
  sharing: "never",
  header: "own-name",
  invented: "blank",
  description: "made up",
  example: "",
} as const;
const chosen = { ...told, cells: "own-words" } as const;
const dated = { ...told, when: "free" } as const;
const distance = optional.number({ ...told, minimum: 0, maximum: 9, unit: "mm" });

/** The 20 columns as a table of the toolkit, so that reading means typing and validating each cell. */
const row = z.strictObject({
  id: required.identifier(told),
  site: required.choice(sites, chosen),
  injured_on: required.date(dated),
  returned_on: optional.date(dated),
  grade: required.identifier(told),
  treatment: required.choice(treatments, chosen),
  pulley: required.choice(pulleys, chosen),
  age: required.number({ ...told, minimum: 16, maximum: 60 }),
  sex: required.identifier(told),
  note: optional.text(told),
  mm1: distance,
  mm2: distance,
  mm3: distance,
  mm4: distance,
  mm5: distance,
  mm6: distance,
  mm7: distance,
  mm8: distance,
  score: required.number({ ...told, minimum: 0, maximum: 100 }),
  event: required.number({ ...told, minimum: 0, maximum: 1 }),
});

export const csvTable: Table<z.infer<typeof row>> = {
  name: "csv20",
  title: "Made up",
  row: row as unknown as Table<z.infer<typeof row>>["row"],
  fields: fieldsOf(row as unknown as z.ZodObject) as readonly Field[],
  key: ["id"],
  tellsApart: ["id"],
};

const firstDay = Date.UTC(2015, 0, 1);
const dateOf = (day: number): string => new Date(firstDay + day * 86_400_000).toISOString().slice(0, 10);

/** 20 columns: id, five codes, two dates, a note with a quoted comma in 5 %, age, eight distances 8 % blank, score, event. */
export function csvText(n: number, seed = 17): string {
  const next = drawsOf(seed);
  const lines = [Object.keys(row.shape).join(",")];
  const u = new Float64Array(drawsARow + 1);
  const at = (draw: number): number => u[draw]!;
  const code = <T>(from: readonly T[], draw: number): T => from[Math.floor(at(draw) * from.length)] as T;
  const unlessBlank = (text: string, draw: number): string => (at(draw) < 0.08 ? "" : text);
  for (let index = 1; index <= n; index++) {
    for (let draw = 1; draw <= drawsARow; draw++) u[draw] = next();
    const injured = Math.floor(at(1) * 3000);
    const distances = [1, 2, 3, 4, 5, 6, 7, 8].map((k) =>
      unlessBlank((at(10 + k) * 9).toFixed(1), ((10 + k) % 20) + 1),
    );
    const cells = [
      `P${String(index).padStart(7, "0")}`,
      code(sites, 3),
      dateOf(injured),
      unlessBlank(dateOf(injured + Math.floor(at(2) * 900) + 1), 4),
      code(gradesInRoman, 5),
      code(treatments, 6),
      code(pulleys, 7),
      Math.floor(at(8) * 45) + 16,
      code(sexes, 9),
      at(10) < 0.05 ? '"seen, twice"' : "ok",
      ...distances,
      Math.floor(at(19) * 101),
      at(20) < 0.7 ? 1 : 0,
    ];
    lines.push(cells.join(","));
  }
  return `${lines.join("\n")}\n`;
}
