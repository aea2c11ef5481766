import { byKey } from "./link-rule.js";

/**
 * The groups of two rows or more that have the same key, by their first rows, each in the order of the rows.
 *
 * Most keys of a large table belong to one row each. A map of all of them is what takes time and memory, so that rows
 * whose key cannot come twice, by a short hash of it, are left out beforehand.
 */
export const groupsSharingKey = <Row>(
  rows: readonly Row[],
  keyOf: (row: Row) => string,
): readonly (readonly Row[])[] =>
  [...byKey(rowsThatMayShare(rows, keyOf), keyOf).values()].filter((group) => group.length > 1);

/** All rows whose key comes twice, and by chance some others. */
function rowsThatMayShare<Row>(rows: readonly Row[], keyOf: (row: Row) => string): readonly Row[] {
  const met = new Uint8Array(slotsFor(rows.length));
  const slotOf = (row: Row): number => hashOf(keyOf(row)) & (met.length - 1);
  for (const row of rows) {
    const slot = slotOf(row);
    if (met[slot]! < several) met[slot]! += 1;
  }
  return rows.filter((row) => met[slotOf(row)] === several);
}

const several = 2;

/** A power of two, more than eight times as many as rows: few keys then meet another by chance. */
const slotsFor = (rows: number): number => 1 << (32 - Math.clz32(8 * rows));

function hashOf(text: string): number {
  let hash = 0;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash, 31) + text.charCodeAt(i);
  return hash ^ (hash >>> 15);
}
