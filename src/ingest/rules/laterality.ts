import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import { byKey, type InjuryWithRows, type LinkRule } from "./link-rule.js";
import { byInjuryDate, type Injury, injuriesOfRepeaters, personNamer } from "./persons.js";

const eventOf = ({ values }: Injury): string => values.event_id ?? values.injury_date;

/** Both hands hurt in one moment, or on one day where the moments have no names. */
export const eventBothHands: LinkRule = function* ({ tables }) {
  const personOf = personNamer(tables.personIds);
  const oneEvent = byKey(injuriesOfRepeaters(tables), (row) => `${personOf(row)}\n${eventOf(row)}`);
  for (const group of oneEvent.values()) {
    if (group.length < 2) continue;
    const [first, ...others] = [...group].sort((one, other) => one.row - other.row);
    const clash = others.find(({ values }) => areTwoHands(values.hand, first!.values.hand));
    if (clash === undefined) continue;
    yield askAbout(clash, {
      code: "event-both-hands",
      severity: "look-at",
      column: "hand",
      found: clash.values.hand,
      facts: { other: first!.values.hand, other_row: first!.row },
    });
  }
};

type Hand = Injury["values"]["hand"];

const areTwoHands = (one: Hand, other: Hand): boolean =>
  one !== other && one !== "not_stated" && other !== "not_stated";

function personAndFinger({ personIds }: Pick<CohortTables, "personIds">): (row: Injury) => string {
  const personOf = personNamer(personIds);
  return (row) => `${personOf(row)}\n${row.values.finger}`;
}

/** 'No' to an earlier injury of the finger, or of its like on the other hand, that another row tells of. */
export const earlierInjuryContradicts: LinkRule = function* ({ tables }) {
  const sameFingers = byKey(injuriesOfRepeaters(tables), personAndFinger(tables));
  for (const group of sameFingers.values()) {
    if (group.length < 2 || group[0]!.values.finger === "not_stated") continue;
    for (const { row, before } of withEarlier(group)) yield* denialsOf(row, before);
  }
};

/** Each row by date, with the first row of each hand that is dated before it; rows of one day do not precede each other. */
function* withEarlier(group: readonly Injury[]) {
  const before = new Map<Hand, Injury>();
  let sameDay: Injury[] = [];
  for (const row of byInjuryDate(group)) {
    if (sameDay[0] !== undefined && sameDay[0].values.injury_date < row.values.injury_date) {
      for (const other of sameDay) if (!before.has(other.values.hand)) before.set(other.values.hand, other);
      sameDay = [];
    }
    sameDay.push(row);
    yield { row, before };
  }
}

function* denialsOf(row: Injury, before: ReadonlyMap<Hand, Injury>) {
  const same = before.get(row.values.hand);
  const opposite = [...before.values()].find(({ values }) => areTwoHands(values.hand, row.values.hand));
  const denied = [
    ["prior_injury_same_finger", same],
    ["other_side_ever_injured", opposite],
  ] as const;
  for (const [column, other] of denied) {
    if (row.values[column] !== "no" || other === undefined) continue;
    yield askAbout(row, {
      code: "earlier-injury-contradicts",
      severity: "look-at",
      column,
      found: "no",
      facts: { other_row: other.row },
    });
  }
}

const otherHand: ReadonlyMap<Hand, Hand> = new Map([
  ["left", "right"],
  ["right", "left"],
]);

/** The first row of each hand that is dated on a day or before it. */
const byHand = (rows: readonly Injury[]) =>
  new Map([...byKey(rows, ({ values }) => values.hand)].map(([hand, own]) => [hand, firstUntil(own)]));

/** Finds the first of some rows that is dated on a day or before it: one that is earlier than all rows above it. */
function firstUntil(rows: readonly Injury[]): (day: string) => Injury | undefined {
  const records: Injury[] = [];
  for (const row of rows) {
    const last = records.at(-1);
    if (last === undefined || row.values.injury_date < last.values.injury_date) records.push(row);
  }
  return (day) => {
    let [from, to] = [0, records.length];
    while (from < to) {
      const middle = (from + to) >> 1;
      if (records[middle]!.values.injury_date <= day) to = middle;
      else from = middle + 1;
    }
    return records[from];
  };
}

/** The other side measured for comparison, although that finger is or was injured as well. */
export const comparisonSideInjured: LinkRule = function* ({ tables, linked }) {
  // the finger of the other hand is in another row of the person
  const fingerOf = personAndFinger(tables);
  const fingers = byKey(injuriesOfRepeaters(tables), fingerOf);
  const firstOf = new Map([...fingers].map(([name, rows]) => [name, byHand(rows)]));
  for (const { injury, imaging } of linked) {
    const compared = imaging.find(({ values }) => values.side === "other");
    if (compared === undefined) continue;
    const known = firstOf.get(fingerOf(injury));
    const other = otherHand.get(injury.values.hand);
    const hurt = other === undefined ? undefined : known?.get(other)?.(compared.values.date);
    if (hurt === undefined && injury.values.other_side_ever_injured !== "yes") continue;
    yield askAbout(compared, {
      code: "comparison-side-injured",
      severity: "look-at",
      column: "side",
      found: "other",
      facts: { injury_row: (hurt ?? injury).row },
    });
  }
};

/** Every reading is of the other side: were the sides swapped? */
export const onlyOtherSideImaged: LinkRule = function* ({ linked }) {
  for (const { imaging } of linked) {
    const [first] = imaging;
    if (first === undefined || imaging.some(({ values }) => values.side !== "other")) continue;
    yield askAbout(first, {
      code: "only-other-side-imaged",
      severity: "look-at",
      column: "side",
      found: "other",
    });
  }
};

/** What a note calls the left or the right hand, in three languages; 'right' alone is no side. */
const thing = "(?:hand|side|finger|index|middle|ring|little|seite|zeige|mittel|klein)";
const sides: Readonly<Record<"left" | "right", RegExp>> = {
  left: new RegExp(`\\bleft ${thing}|\\blinke[mnrs]? ${thing}|\\blinks\\b|\\bmain gauche\\b`, "i"),
  right: new RegExp(`\\bright ${thing}|\\brechte[mnrs]? ${thing}|\\brechts\\b|\\bmain droite\\b`, "i"),
};

/** A note about an injury, a scan or a visit that names the other hand only. */
export const noteNamesOtherHand: LinkRule = function* ({ linked }) {
  for (const each of linked) {
    const { hand } = each.injury.values;
    if (hand === "not_stated") continue;
    const other = hand === "left" ? "right" : "left";
    for (const { row, column, note } of notesOf(each)) {
      const named = sides[other].exec(note);
      if (named === null || sides[hand].test(note)) continue;
      yield askAbout(row, {
        code: "note-names-other-hand",
        severity: "look-at",
        column,
        found: named[0],
        facts: { hand, injury_row: each.injury.row },
      });
    }
  }
};

function notesOf({ injury, imaging, visits }: InjuryWithRows): readonly Note[] {
  const notes: Note[] = [];
  const add = (row: TypedRow<unknown>, column: string, note: string | null) => {
    if (note !== null) notes.push({ row, column, note });
  };
  add(injury, "notes", injury.values.notes);
  for (const row of imaging) add(row, "comment", row.values.comment);
  for (const row of visits) add(row, "note", row.values.note);
  return notes;
}

interface Note {
  readonly row: TypedRow<unknown>;
  readonly column: string;
  readonly note: string;
}
