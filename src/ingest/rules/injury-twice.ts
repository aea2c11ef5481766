import { askAbout } from "../../schema/ask.js";
import type { InjuryRow } from "../../schema/injuries.js";
import type { PersonIds } from "../../schema/person-key.js";
import type { RowCheck } from "../table/ledger.js";
import { type Injury, personNamer } from "./persons.js";
import { groupsSharingKey } from "./shared-keys.js";

/** How many rows a query lists at most. */
const rowsListed = 10;

/** Rows with the same person, finger and day of injury: all of them, since only one can be right. */
export function injuryTwice(rows: readonly Injury[], personIds: PersonIds): RowCheck<InjuryRow> {
  const known = rows.filter(({ values }) => values.finger !== "not_stated");
  const groups = groupsSharingKey(known, keyOf(personIds));
  const groupOf = new Map(groups.flatMap((group) => group.map(({ row }) => [row, group] as const)));
  return (row) => {
    const group = groupOf.get(row.row);
    if (group === undefined) return [];
    const listed = group.slice(0, rowsListed).map((each) => each.row);
    const found = row.values.injury_date;
    const facts = { rows: `${listed.join(", ")}${group.length > rowsListed ? " and more" : ""}` };
    return [
      askAbout(row, { code: "injury-twice", severity: "set-aside", column: "injury_date", found, facts }),
    ];
  };
}

function keyOf(personIds: PersonIds): (row: Injury) => string {
  const personOf = personNamer(personIds);
  return (row) => {
    const { hand, finger, injury_date } = row.values;
    return `${personOf(row)}\n${hand}\n${finger}\n${injury_date}`;
  };
}
