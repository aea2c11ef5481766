import type { TypedRow } from "../../schema/cells.js";
import type { DataQuery } from "../../schema/data-query.js";
import { grades } from "../../schema/terms.js";
import { askAboutColumn } from "./about-column.js";
import { byKey, type LinkRule, median } from "./link-rule.js";

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
  `${date.slice(0, 4)}, ${date.slice(5, 7) <= "06" ? "first" : "second"} half`;

/** Each half-year of each group with the other half-years of the group. */
function* halfYears<Value>(rows: readonly Dated<Value>[], enough: number) {
  for (const [group, own] of byKey(rows, (row) => row.group)) {
    const halves = byKey(own, ({ date }) => halfYearOf(date));
    for (const half of [...halves.keys()].sort()) {
      const inside = halves.get(half)!;
      if (inside.length < enough || own.length - inside.length < enough) continue;
      const others = [...halves].flatMap(([name, part]) => (name === half ? [] : part));
      yield { group, half, inside, others };
    }
  }
}

const allRows = "all rows";

/** First loaded distances of a site or a rater that lie elsewhere in one half-year than in its others. */
export const distanceDrifts: LinkRule = function* ({ linked }, { calendar }) {
  if (calendar === "per_person") return;
  const first = linked.flatMap(({ injury, imaging }) => {
    const loaded = imaging.filter(
      ({ values: { position, side, taped, bound } }) =>
        position === "loaded" && side !== "other" && taped !== "yes" && (bound ?? "exact") === "exact",
    );
    const [row] = loaded.sort((one, other) => (one.values.date < other.values.date ? -1 : 1));
    if (row === undefined) return [];
    const { date, distance_mm: value, rater } = row.values;
    const site = injury.values.site_id;
    return [
      {
        row,
        date,
        value,
        site: site === null ? allRows : `site ${site}`,
        rater: rater === null ? null : `rater ${rater}`,
      },
    ];
  });
  const ofSites = first.map((each) => ({ ...each, group: each.site }));
  const ofRaters = first.flatMap((each) => (each.rater === null ? [] : [{ ...each, group: each.rater }]));
  for (const rows of [ofSites, ofRaters]) {
    for (const { group, half, inside, others } of halfYears(rows, enoughReadings)) {
      const [here, elsewhere] = [inside, others].map((part) => part.map(({ value }) => value)) as [
        number[],
        number[],
      ];
      const [middle, usual] = [median(here), median(elsewhere)];
      const shift = Math.abs(middle - usual);
      if (shift < smallestShift || shift <= errors * errorOfMedians(here, elsewhere)) continue;
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
  for (const { group, half, inside, others } of halfYears(dated, enoughInjuries)) {
    const compared = grades.map((grade) => ({ grade, ...shareApart(inside, others, grade) }));
    const most = compared.reduce((best, each) => (each.errorsApart > best.errorsApart ? each : best));
    if (most.errorsApart <= errors || Math.abs(most.here - most.usual) < smallestChange) continue;
    const facts = {
      grade: most.grade,
      n: inside.length,
      here: percent(most.here),
      others_n: others.length,
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

/** Two shares, and how many standard errors of the common share they lie apart. */
function shareApart(inside: readonly Dated<string>[], others: readonly Dated<string>[], grade: string) {
  const count = (rows: readonly Dated<string>[]) => rows.filter(({ value }) => value === grade).length;
  const [m, n] = [inside.length, others.length];
  const [here, usual] = [count(inside) / m, count(others) / n];
  const common = (count(inside) + count(others)) / (m + n);
  const error = Math.sqrt(common * (1 - common) * (1 / m + 1 / n));
  return { here, usual, errorsApart: error === 0 ? 0 : Math.abs(here - usual) / error };
}

const about = (
  { row }: Dated<unknown>,
  query: Pick<DataQuery, "code" | "found" | "facts"> & { readonly column: string },
): DataQuery => askAboutColumn(row, query);

const shown = (value: number): number => Number(value.toPrecision(3));
const percent = (share: number): string => `${Math.round(100 * share)} %`;
