import { askAbout } from "../../schema/ask.js";
import type { TypedRow } from "../../schema/cells.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import type { DataQuery } from "../../schema/data-query.js";
import { daysBetween } from "../../schema/dates.js";
import type { InjuryRow } from "../../schema/injuries.js";
import { type PersonIds, personKey } from "../../schema/person-key.js";
import { byKey, type LinkRule } from "./link-rule.js";
import { groupsSharingKey } from "./shared-keys.js";

export type Injury = TypedRow<InjuryRow>;

/** Injuries closer than this are asked about as one (our choice, in days). */
const sameInjuryWithin = 14;

type Injuries = Pick<CohortTables, "injuries" | "personIds">;

/** Names the person of an injury by a name that no other person has. */
export const personNamer =
  (personIds: PersonIds) =>
  ({ values }: Injury): string =>
    personKey(values, personIds);

export const byInjuryDate = (rows: readonly Injury[]): readonly Injury[] =>
  [...rows].sort(
    (one, other) => earlierDay(one.values.injury_date, other.values.injury_date) || one.row - other.row,
  );

// dates of the form YYYY-MM-DD sort as text
const earlierDay = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0);

/** Groups found before, by the rows: several rules look at the same persons. */
const persons = new WeakMap<readonly Injury[], readonly (readonly Injury[])[]>();

/** The injuries of each person who has several, in the order of the rows. */
function severalByPerson({ injuries: rows, personIds }: Injuries): readonly (readonly Injury[])[] {
  const groups = persons.get(rows) ?? groupsSharingKey(rows, personNamer(personIds));
  persons.set(rows, groups);
  return groups;
}

/** The injuries of persons who have several, in the order of the rows. */
export function injuriesOfRepeaters(tables: Injuries): readonly Injury[] {
  const repeated = new Set(severalByPerson(tables).flat());
  return tables.injuries.filter((row) => repeated.has(row));
}

/** The same finger of the same person once more: within 14 days a duplicate?, later a new rupture? */
export const sameFingerAgain: LinkRule = function* ({ tables }) {
  const personOf = personNamer(tables.personIds);
  const fingerOf = (row: Injury) => `${personOf(row)}\n${row.values.hand}\n${row.values.finger}`;
  for (const group of byKey(injuriesOfRepeaters(tables), fingerOf).values()) {
    if (group.length < 2 || group[0]?.values.finger === "not_stated") continue;
    const sorted = byInjuryDate(group);
    for (const [place, later] of sorted.slice(1).entries()) {
      const earlier = sorted[place]!;
      const gap = daysBetween(earlier.values.injury_date, later.values.injury_date);
      const isNear = gap <= sameInjuryWithin;
      if (!isNear && saysNewRupture(earlier, later)) continue;
      yield askAbout(later, {
        code: isNear ? "possible-duplicate" : "same-finger-again",
        severity: "look-at",
        column: "injury_date",
        found: later.values.injury_date,
        facts: { other_row: earlier.row },
      });
    }
  }
};

/** Whether the earlier row already tells of the later one as a new rupture. */
function saysNewRupture(
  { values: { new_rupture_date } }: Injury,
  { values: { injury_date } }: Injury,
): boolean {
  return (
    new_rupture_date !== null && Math.abs(daysBetween(new_rupture_date, injury_date)) <= sameInjuryWithin
  );
}

/** What stays the same from row to row of one person, and when two values contradict each other. */
const lasting: readonly {
  readonly column: keyof InjuryRow & string;
  readonly what: string;
  readonly valueIn: (row: InjuryRow) => string | number | null;
  readonly agree: (one: string | number, other: string | number) => boolean;
}[] = [
  {
    column: "sex",
    what: "sex",
    valueIn: ({ sex }) => (sex === "not_stated" ? null : sex),
    agree: (one, other) => one === other,
  },
  {
    column: "dominant_hand",
    what: "the dominant hand",
    valueIn: ({ dominant_hand }) => (dominant_hand === "unknown" ? null : dominant_hand),
    agree: (one, other) => one === other,
  },
  {
    column: "age_at_injury",
    what: "age, given the years between the injuries",
    valueIn: ({ age_at_injury, injury_date }) =>
      age_at_injury === null ? null : Number(injury_date.slice(0, 4)) - age_at_injury,
    agree: (one, other) => Math.abs(Number(one) - Number(other)) <= 1,
  },
];

/** Sex, dominant hand or year of birth that change between the rows of one person. */
export const personContradicts: LinkRule = function* ({ tables }) {
  for (const group of severalByPerson(tables)) yield* contradictionsWithin(byInjuryDate(group));
};

function* contradictionsWithin(rows: readonly Injury[]): Iterable<DataQuery> {
  for (const { column, what, valueIn, agree } of lasting) {
    const first = rows.find((row) => valueIn(row.values) !== null);
    if (first === undefined) continue;
    const expected = valueIn(first.values)!;
    for (const row of rows) {
      const value = valueIn(row.values);
      if (value === null || agree(expected, value)) continue;
      yield askAbout(row, {
        code: "person-contradicts-itself",
        severity: "look-at",
        column,
        found: String(row.values[column]),
        facts: { what, other: String(first.values[column]), other_row: first.row },
      });
    }
  }
}

/** Injuries of two persons that agree in all but the name: one person under two names? */
export const samePersonTwice: LinkRule = function* ({ tables }, { calendar }) {
  if (calendar === "per_person") return;
  const known = tables.injuries.filter(
    ({ values }) => values.sex !== null && values.age_at_injury !== null && values.finger !== "not_stated",
  );
  const alike = ({ values: { site_id, injury_date, hand, finger, grade, sex } }: Injury) =>
    `${site_id ?? ""}\n${injury_date}\n${hand}\n${finger}\n${grade}\n${sex}`;
  for (const group of groupsSharingKey(known, alike)) {
    const byAge = [...group].sort((one, other) => ageOf(one) - ageOf(other) || one.row - other.row);
    for (const [place, row] of byAge.slice(1).entries()) {
      const other = byAge[place]!;
      if (ageOf(row) - ageOf(other) > 1 || row.values.person_id === other.values.person_id) continue;
      yield askAbout(row, {
        code: "possible-same-person",
        severity: "look-at",
        column: "person_id",
        found: row.values.person_id,
        facts: { other_row: other.row },
      });
    }
  }
};

const ageOf = ({ values }: Injury): number => values.age_at_injury ?? Number.NaN;

/** Sites that injuries name and the sites table does not have, where there is such a table. */
export const siteUnknown: LinkRule = function* ({ tables }) {
  if (tables.sites.length === 0) return;
  const sites = new Set(tables.sites.map(({ values }) => values.site_id));
  for (const row of tables.injuries) {
    const site = row.values.site_id;
    if (site === null || sites.has(site)) continue;
    yield askAbout(row, { code: "site-unknown", severity: "look-at", column: "site_id", found: site });
  }
};
