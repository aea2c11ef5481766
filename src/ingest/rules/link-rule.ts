import type { TypedRow } from "../../schema/cells.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import type { DataQuery } from "../../schema/data-query.js";
import type { ImagingRow } from "../../schema/imaging.js";
import type { InjuryRow } from "../../schema/injuries.js";
import type { PersonIds } from "../../schema/person-key.js";
import type { TreatmentRow } from "../../schema/treatments.js";
import type { VisitRow } from "../../schema/visits.js";

/** An injury with the rows that name it, each list in the order of its file. */
export interface InjuryWithRows {
  readonly injury: TypedRow<InjuryRow>;
  readonly treatments: readonly TypedRow<TreatmentRow>[];
  readonly imaging: readonly TypedRow<ImagingRow>[];
  readonly visits: readonly TypedRow<VisitRow>[];
}

/** The rows that are used, and each injury with its own. */
export interface UsedRows {
  readonly tables: CohortTables;
  readonly linked: readonly InjuryWithRows[];
}

export interface LinkContext {
  /** Distance above which the study calls a rupture complete, mm. */
  readonly thresholdMm: number;
  /** Whether all dates lie on one calendar, or each person has one of their own (a de-identified copy). */
  readonly calendar?: "common" | "per_person";
  /** How far a person id names one person, where the study states it. */
  readonly personIds?: PersonIds | undefined;
}

/** A rule over rows of several tables, or several rows of one: it asks, and sets nothing aside. */
export type LinkRule = (used: UsedRows, context: LinkContext) => Iterable<DataQuery>;

/** Puts each injury together with the rows that name it. */
export function linkRows(tables: CohortTables): UsedRows {
  const treatments = trimmed(byKey(tables.treatments, injuryNamed));
  const imaging = trimmed(byKey(tables.imaging, injuryNamed));
  const visits = trimmed(byKey(tables.visits, injuryNamed));
  const linked = tables.injuries.map((injury) => {
    const name = injury.values.injury_id;
    return {
      injury,
      treatments: treatments.get(name) ?? noRows,
      imaging: imaging.get(name) ?? noRows,
      visits: visits.get(name) ?? noRows,
    };
  });
  return { tables, linked };
}

const noRows: readonly never[] = [];

/** Lists that grow keep room for many more; these stay as they are, and there are as many as injuries. */
const trimmed = <Row>(groups: ReadonlyMap<string, readonly Row[]>): ReadonlyMap<string, readonly Row[]> =>
  new Map([...groups].map(([key, rows]) => [key, rows.length > 1 ? rows.slice() : rows]));

const injuryNamed = ({ values }: TypedRow<{ readonly injury_id: string }>): string => values.injury_id;

/** Rows by a key, each list in the order of the rows. */
export function byKey<Row>(
  rows: Iterable<Row>,
  keyOf: (row: Row) => string,
): ReadonlyMap<string, readonly Row[]> {
  const groups = new Map<string, Row[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}

/** Fewer values than this do not show how a column is filled (our choice). */
export const enoughForAColumn = 5;
