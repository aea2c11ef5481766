import { tidy } from "../../schema/cells/reading.js";
import type { CellRow } from "../../schema/cells.js";
import type { PersonIds } from "../../schema/person-key.js";
import { byKey } from "../rules/link-rule.js";

/** The rows of one injury, in the order of the file. */
export type GroupedRows = readonly CellRow[];

const telling = ["injury_date", "hand", "finger"] as const;

interface Injury {
  readonly parts: string[];
  readonly rows: CellRow[];
}

/**
 * The rows of each person, by injury.
 *
 * Rows are of one injury where person, date, hand and finger do not contradict each other. A cell that is blank
 * contradicts nothing: such a row goes to the nearest injury above that its filled cells allow, unless its visit was
 * before that injury. A row without a person is on its own.
 */
export function groupVisits(
  rows: readonly CellRow[],
  personIds: PersonIds,
): readonly (readonly GroupedRows[])[] {
  const nameOf = ({ row, cells }: CellRow): string => {
    const person = tidy(cells.person ?? "");
    return person === ""
      ? `${row}`
      : JSON.stringify([personIds === "shared" ? "" : tidy(cells.site ?? ""), person]);
  };
  return [...byKey(rows, nameOf).values()].map((own) => injuriesOf(own).map(({ rows: group }) => group));
}

function injuriesOf(rows: readonly CellRow[]): readonly Injury[] {
  const injuries: Injury[] = [];
  for (const row of rows) {
    const parts = telling.map((column) => tidy(row.cells[column] ?? ""));
    const same = injuries.findLast(
      (each) => parts.every((part, i) => agrees(part, each.parts[i]!)) && !isBefore(row, each),
    );
    if (same === undefined) injuries.push({ parts, rows: [row] });
    else {
      same.rows.push(row);
      for (const [i, part] of parts.entries()) if (part !== "") same.parts[i] = part;
    }
  }
  return injuries;
}

const agrees = (one: string, other: string): boolean => one === "" || other === "" || one === other;

const isoDay = /^\d{4}-\d{2}-\d{2}$/;

/** Whether a row that does not say its own injury is of a day before an injury. */
function isBefore({ cells }: CellRow, { parts: [injured = ""] }: Injury): boolean {
  const seen = tidy(cells.date ?? "");
  return tidy(cells.injury_date ?? "") === "" && isoDay.test(seen) && isoDay.test(injured) && seen < injured;
}
