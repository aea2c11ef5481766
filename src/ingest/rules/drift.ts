import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { grades } from "../../schema/terms.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, type LinkRule } from "./link-rule.js";
import { ascending, middleOf, middleWithout } from "./medians.js";
import { isExact, isOfInjured, type Reading } from "./readings.js";

/** A half-year differs from the others by so many standard errors before it is asked about (our choice). */
const errors = 4;
/** Readings, and injuries, that a half-year and the others together must have at least (our choice). */
const enoughReadings = 10;
const enoughInjuries = 20;
/** Smaller differences are not asked about, however sure: mm, and share (our choice). */
const smallestShift = 0.5;
const smallestChange = 0.1;

/** A row with its day and the group whose habits are looked at: a site, a rater, or all rows. */
interface Dated<Value> {
  readonly row: TypedRow<unknown>;
  readonly date: string;
  readonly group: string;
  readonly value: Value;
}

const halfYearOf = (date: string): string =>
  date.slice(5, 7) <= "06" ? `${date.slice(0, 4)}, first half` : `${date.slice(0, 4)}, second half`;

/** Each half-year of each group with the other half-years of the group. */
function* halfYears<Value>(rows: readonly Dated<Value>[], enough: number) {
  for (const [group, own] of byKey(rows, (row) => row.group)) {
    const halves = byKey(own, ({ date }) => halfYearOf(date));
    for (const half of [...halves.keys()].sort()) {
      const inside = halves.get(half)!;
      const othersCount = own.length - inside.length;
      if (inside.length < enough || othersCount < enough) continue;
      // not put together: with many half-years there would be as many copies of all rows
      yield { group, half, own, inside, othersCount, others: othersIn(halves, half) };
    }
  }
}

function* othersIn<Value>(
  halves: ReadonlyMap<string, readonly Dated<Value>[]>,
  half: string,
): Iterable<Dated<Value>> {
  for (const [name, part] of halves) if (name !== half) yield* part;
}

/** Looks at a group once, though each of its half-years asks. */
function onceAGroup<Rows extends object, Found>(look: (own: Rows) => Found): (own: Rows) => Found {
  const found = new WeakMap<Rows, Found>();
  return (own) => {
    const known = found.get(own) ?? look(own);
    found.set(own, known);
    return known;
  };
}

const allRows = "all rows";

/** First loaded distances of a site or a rater that lie elsewhere in one half-year than in its others. */
export const distanceDrifts: LinkRule = function* ({ linked }, { calendar }) {
  if (calendar === "per_person") return;
  const ofSites: Dated<number>[] = [];
  const ofRaters: Dated<number>[] = [];
  for (const { injury, imaging } of linked) {
    const row = firstLoaded(imaging);
    if (row === null) continue;
    const { date, distance_mm: value, rater } = row.values;
    const site = injury.values.site_id;
    ofSites.push({ row, date, group: site === null ? allRows : `site ${site}`, value });
    if (rater !== null) ofRaters.push({ row, date, group: `rater ${rater}`, value });
  }
  const sortedOf = onceAGroup((own: readonly Dated<number>[]) => ascending(own.map(({ value }) => value)));
  for (const rows of [ofSites, ofRaters]) {
    for (const { group, half, own, inside, others } of halfYears(rows, enoughReadings)) {
      const here = ascending(inside.map(({ value }) => value));
      const [middle, usual] = [middleOf(here), middleWithout(sortedOf(own), here)];
      const shift = Math.abs(middle - usual);
      if (shift < smallestShift) continue;
      const elsewhere = Array.from(others, ({ value }) => value);
      const error = errorOfMedians(
        inside.map(({ value }) => value),
        elsewhere,
      );
      if (shift <= errors * error) continue;
      const facts = {
        n: here.length,
        middle: shown(middle),
        others_n: elsewhere.length,
        usual: shown(usual),
      };
      yield about(inside[0]!, {
        code: "distance-drifts",
        column: "distance_mm",
        found: `${group}, ${half}`,
        facts,
      });
    }
  }
};

/** The first of the loaded readings of the injured side without tape that are values. */
function firstLoaded(imaging: readonly Reading[]): Reading | null {
  let first: Reading | null = null;
  for (const row of imaging) {
    const { position, taped, date } = row.values;
    const counts = position === "loaded" && taped !== "yes" && isOfInjured(row) && isExact(row);
    if (counts && (first === null || date < first.values.date)) first = row;
  }
  return first;
}

/** Standard error of the difference of two medians, as for normal values: 1.2533 s sqrt(1/m + 1/n). */
function errorOfMedians(one: readonly number[], other: readonly number[]): number {
  const squares = [one, other].reduce((sum, values) => {
    const mean = values.reduce((total, value) => total + value, 0) / values.length;
    return sum + values.reduce((total, value) => total + (value - mean) ** 2, 0);
  }, 0);
  const variance = squares / (one.length + other.length - 2);
  return Math.sqrt(Math.PI / 2) * Math.sqrt(variance * (1 / one.length + 1 / other.length));
}

/** A grade of a site that is more or less frequent in one half-year than in its others: the most unlike grade is told. */
export const gradeShareDrifts: LinkRule = function* ({ tables }, { calendar }) {
  if (calendar === "per_person") return;
  const dated = tables.injuries.map((row) => ({
    row,
    date: row.values.injury_date,
    group: row.values.site_id === null ? allRows : `site ${row.values.site_id}`,
    value: row.values.grade,
  }));
  const countedOf = onceAGroup(countGrades);
  for (const { group, half, own, inside, othersCount } of halfYears(dated, enoughInjuries)) {
    const all = countedOf(own);
    const here = countGrades(inside);
    const compared = grades.map((grade) => ({
      grade,
      ...shareApart(
        { count: here.get(grade) ?? 0, n: inside.length },
        { count: (all.get(grade) ?? 0) - (here.get(grade) ?? 0), n: othersCount },
      ),
    }));
    const most = compared.reduce((best, each) => (each.errorsApart > best.errorsApart ? each : best));
    if (most.errorsApart <= errors || Math.abs(most.here - most.usual) < smallestChange) continue;
    const facts = {
      grade: most.grade,
      n: inside.length,
      here: percent(most.here),
      others_n: othersCount,
      usual: percent(most.usual),
    };
    yield about(inside[0]!, {
      code: "grade-share-drifts",
      column: "grade",
      found: `${group}, ${half}`,
      facts,
    });
  }
};

function countGrades(rows: readonly Dated<string>[]): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { value } of rows) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
}

interface Counted {
  readonly count: number;
  readonly n: number;
}

/** Two shares, and how many standard errors of the common share they lie apart. */
function shareApart(inside: Counted, others: Counted) {
  const [m, n] = [inside.n, others.n];
  const [here, usual] = [inside.count / m, others.count / n];
  const common = (inside.count + others.count) / (m + n);
  const error = Math.sqrt(common * (1 - common) * (1 / m + 1 / n));
  return { here, usual, errorsApart: error === 0 ? 0 : Math.abs(here - usual) / error };
}

const about = (
  { row }: Dated<unknown>,
  query: Pick<DataQuery, "code" | "found" | "facts"> & { readonly column: string },
): DataQuery => askAboutColumn(row, query);

const shown = (value: number): number => Number(value.toPrecision(3));
const percent = (share: number): string => `${Math.round(100 * share)} %`;
