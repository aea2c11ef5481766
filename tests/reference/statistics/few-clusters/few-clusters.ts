import { readFileSync } from "node:fs";
import { type Expected, numbers, referenceRows } from "../reference-data.js";

const topic = "few_clusters";
const expected = JSON.parse(
  readFileSync(new URL(`../../data/${topic}/expected.json`, import.meta.url), "utf8"),
) as Expected;

/** Rows of the SYNTHETIC fingers, one to three of a person. */
const rows = referenceRows(topic, "fingers.csv");
export const finger = (name: string): number[] => numbers(rows, name);

/** The cases of one part, by their names. */
export const casesOf = (part: string): { readonly id: string }[] & Expected[] => expected[part];

export const bandExpected: Expected = expected.band;
