import { readFileSync } from "node:fs";
import { expect } from "vitest";

/** A reference case: where its data come from and what independent software computed from them. */
export interface ReferenceCase {
  readonly id: string;
  readonly tolerance: { readonly rel: number; readonly abs: number };
  readonly expected: Expected;
}

/** Whatever stands in an expected.json; "Infinity", "-Infinity" and "NaN" are written as words, null is missing. */
// biome-ignore lint/suspicious/noExplicitAny: the shape differs from case to case and is walked by name
export type Expected = any;

const folder = new URL("../data/", import.meta.url);

/** The whole of a topic's expected.json, where it has no cases. */
export const referenceFile = (topic: string): Expected =>
  JSON.parse(readFileSync(new URL(`${topic}/expected.json`, folder), "utf8"));

export function referenceCase(topic: string, id: string): ReferenceCase {
  const { cases } = JSON.parse(readFileSync(new URL(`${topic}/expected.json`, folder), "utf8")) as {
    cases: ReferenceCase[];
  };
  const found = cases.find((one) => one.id === id);
  if (!found) throw new Error(`No case ${id} in ${topic}`);
  return found;
}

export type Row = Readonly<Record<string, string>>;

/** Rows of a reference CSV (no quoted cells in them). */
export function referenceRows(topic: string, file: string): Row[] {
  const [header, ...lines] = readFileSync(new URL(`${topic}/${file}`, folder), "utf8")
    .trim()
    .split(/\r?\n/);
  const names = (header ?? "").split(",").map((name) => name.replaceAll('"', ""));
  return lines.map((line) => {
    const cells = line.split(",").map((cell) => cell.replaceAll('"', ""));
    return Object.fromEntries(names.map((name, at) => [name, cells[at] ?? ""]));
  });
}

/** One column as numbers; an empty cell is an error, so that no row goes missing unseen. */
export function numbers(rows: readonly Row[], name: string): number[] {
  return rows.map((row, at) => {
    const cell = row[name];
    if (cell === undefined || cell === "") throw new Error(`No value for ${name} in row ${at}`);
    return Number(cell);
  });
}

/** Place of each row's word in a list of words. */
export function codes(rows: readonly Row[], name: string, words: readonly string[]): number[] {
  return rows.map((row) => words.indexOf(row[name]!));
}

/** |actual - expected| <= abs + rel |expected|; null against null. */
export function expectClose(
  actual: number | null | undefined,
  expected: Expected,
  how: { readonly rel: number; readonly abs?: number; readonly what: string },
): void {
  const { rel, abs = 1e-12, what } = how;
  if (expected === null) {
    expect(actual, what).toBeNull();
    return;
  }
  if (typeof actual !== "number") throw new Error(`${what}: expected ${expected}, found ${actual}`);
  const difference = Math.abs(actual - expected);
  expect(difference <= abs + rel * Math.abs(expected), `${what}: expected ${expected}, found ${actual}`).toBe(
    true,
  );
}

export function expectAllClose(
  actual: ArrayLike<number | null>,
  expected: readonly Expected[],
  how: { readonly rel: number; readonly abs?: number; readonly what: string },
): void {
  expect(actual.length, `${how.what}: length`).toBe(expected.length);
  expected.forEach((value, at) => {
    expectClose(actual[at], value, { ...how, what: `${how.what}[${at}]` });
  });
}
