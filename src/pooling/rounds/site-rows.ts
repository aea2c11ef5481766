import { toColumns } from "../../cohort/columns.js";
import { deriveCohort } from "../../cohort/derive.js";
import { linkTables } from "../../cohort/link.js";
import type { OutcomeRecord } from "../../cohort/record.js";
import type { CohortTables } from "../../schema/cohort-tables.js";
import {
  acceleratedAt,
  deletionsAt,
  hazardsAt,
  type SiteSums,
} from "../../statistics/pooling/rounds/index.js";
import { columnsOf } from "../../study/columns.js";
import { compared } from "../../study/groups.js";
import type { Plan } from "../../study/plan.js";
import { pathOf } from "../../study/spans/known-returns.js";
import { spanColumnsOf } from "../../study/spans/span-columns.js";
import { specificationOf } from "../../study/specification.js";
import { adjustersOf, strataOf } from "../../study/strata.js";
import { type SharedTerm, termsOf } from "./fit-model.js";
import type { FitModel, PointFile } from "./round-files.js";

/** The injuries of a site that a fit can use. */
export interface SiteRows {
  readonly records: readonly OutcomeRecord[];
  readonly groups: readonly string[];
  /** Injuries of the compared groups without a value that the fit needs, or of a group of few people. */
  readonly leftOut: number;
  /** Whether the site's returns are known between two days only, by the rule of the study. */
  readonly between: boolean;
}

/** The records of the compared groups in which everything that the fit holds equal was recorded. */
export function siteRows(tables: CohortTables, plan: Plan): SiteRows {
  const asked = { ...specificationOf(plan), path: "days" as const };
  const { records } = deriveCohort(linkTables(tables), asked.question);
  const found = compared(records, asked);
  const all = found.groups.flatMap(({ label, records: own }) =>
    own.map((record) => ({ group: label, record })),
  );
  const { strata, numbers } = adjustersOf(plan.compare.adjust_for);
  const kept = all.filter(({ record }) =>
    [...strata, ...numbers].every((field) => record.covariates[field] !== null),
  );
  return {
    records: kept.map(({ record }) => record),
    groups: kept.map(({ group }) => group),
    leftOut: all.length - kept.length,
    between: pathOf(records, asked) === "spans",
  };
}

/** What a record has of a shared parameter. */
function heldBy(term: SharedTerm, row: { readonly record: OutcomeRecord; readonly group: string }): number {
  if (term.kind === "group") return Number(row.group === term.group);
  const value = row.record.covariates[term.field];
  return term.kind === "number" ? (value as number) : Number(value === term.level);
}

function covariatesOf({ records, groups }: SiteRows, model: FitModel) {
  const terms = termsOf(model);
  return {
    names: terms.map((_, i) => `parameter ${i}`),
    columns: terms.map((term) =>
      Float64Array.from(records, (record, i) => heldBy(term, { record, group: groups[i]! })),
    ),
  };
}

/** A point as a site answers it: its own intercept first, where it has one. */
export interface SitePoint {
  readonly shared: readonly number[];
  readonly intercept: number | null;
}

/** The sums over a site's rows at a point. */
export function sumsAt(
  rows: SiteRows,
  at: { readonly model: FitModel; readonly point: SitePoint; readonly squares: "yes" | "no" },
): SiteSums {
  const { model, point, squares } = at;
  const { records } = rows;
  const covariates = covariatesOf(rows, model);
  if (model.fit === "hazards")
    return hazardsAt(hazardColumnsOf(rows, model), { point: point.shared, ties: model.ties, squares });
  // whoever came to another end is known not to be back until that day
  const { ends: _, ...spans } = spanColumnsOf(records, { shareBack: "if_no_competing_end" });
  const columns = { ...spans, covariates, clusters: toColumns(records).persons };
  const whole = [point.intercept ?? 0, ...point.shared];
  return acceleratedAt(columns, { point: whole, law: model.law, squares });
}

function hazardColumnsOf(rows: SiteRows, model: FitModel) {
  const { records } = rows;
  const { strata: fields } = adjustersOf(model.asked.compare.adjust_for);
  const strata = fields.length === 0 ? null : strataOf(records, fields);
  const { timeToEvent } = columnsOf(records, { clustered: true });
  return {
    ...timeToEvent,
    covariates: covariatesOf(rows, model),
    ...(strata && { strata: strata.codes }),
  };
}

/**
 * What the deletion of each of a site's people changes, summed over them, by the free parameters; null where the rows are too many.
 */
export function deletionsOf(
  rows: SiteRows,
  { model, shared, maximum }: Pick<PointFile, "model" | "shared"> & { readonly maximum: Maximum },
): number[][] | null {
  if (model.fit !== "hazards") return null;
  const { covariates, ...columns } = hazardColumnsOf(rows, model);
  const { score, information, free } = maximum;
  const among = <Value>(values: readonly Value[]) => free.map((j) => values[j]!);
  return deletionsAt(
    { ...columns, covariates: { names: among(covariates.names), columns: among(covariates.columns) } },
    {
      point: among(shared),
      ties: model.ties,
      score: among(score),
      information: among(information).map(among),
    },
  );
}

export type Maximum = NonNullable<PointFile["maximum"]>;

/** Largest less smallest log hazard, or log time over the scale, of a site's rows at a point. */
export function spreadAt(rows: SiteRows, { model, point }: { model: FitModel; point: SitePoint }): number {
  const { columns } = covariatesOf(rows, model);
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < rows.records.length; i++) {
    const eta = columns.reduce((sum, column, j) => sum + point.shared[j]! * column[i]!, 0);
    [low, high] = [Math.min(low, eta), Math.max(high, eta)];
  }
  return rows.records.length === 0 ? 0 : high - low;
}
