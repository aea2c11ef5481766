import { estimandOfEffect, measureOf } from "../../study/index.js";
import type { EffectResult, Results, TestResult } from "../../study/results.js";
import { estimateColumns } from "./curves.js";
import { type ColumnsOf, type FlatTable, flatTable, unfold } from "./reshape.js";

/** Effects, the strata that adjusted ones leave out, and tests with their seen and expected returns. */
export function comparisonTables({ effects, tests }: Results): FlatTable[] {
  return [effectsTable(effects), leftOutTable(effects), testsTable(tests)];
}

/** What is said of an effect. */
export const effectColumns: ColumnsOf<EffectResult> = {
  id: ({ id }) => id,
  measure: ({ measure }) => measure,
  compared: ({ compared }) => compared,
  reference: ({ reference }) => reference,
  adjusted_for: ({ adjusted_for }) => adjusted_for.join("|"),
  strata_used: ({ strata_used }) => strata_used.join("|"),
  at_day: ({ at_day }) => at_day,
  main: ({ main }) => (main ? "yes" : "no"),
  unit: ({ unit }) => unit,
  ...estimateColumns<EffectResult>("estimate", ({ estimate }) => estimate),
  level: ({ level }) => level,
  standard_error: ({ standard_error }) => standard_error,
  p: ({ p }) => p,
  n_compared: ({ n }) => n.compared,
  n_reference: ({ n }) => n.reference,
  events_compared: ({ events }) => events.compared,
  events_reference: ({ events }) => events.reference,
  method: ({ method }) => method,
  clustered: ({ clustered }) => (clustered ? "yes" : "no"),
  estimand: (effect) => (measureOf(effect.measure).outcome === "return" ? estimandOfEffect(effect) : null),
};

const effectsTable = (effects: readonly EffectResult[]): FlatTable =>
  flatTable("effects", { things: effects, columns: effectColumns });

const leftOutTable = (effects: readonly EffectResult[]): FlatTable =>
  flatTable("effects-left-out", {
    things: unfold(effects, ({ left_out }) => left_out),
    columns: {
      id: ({ parent }) => parent.id,
      stratum: ({ child }) => child.stratum,
      injuries: ({ child }) => child.n,
      reason: ({ child }) => child.reason,
    },
  });

const testsTable = (tests: readonly TestResult[]): FlatTable =>
  flatTable("tests", {
    things: unfold(tests, ({ groups }) => groups),
    columns: {
      id: ({ parent }) => parent.id,
      method: ({ parent }) => parent.method,
      family: ({ parent }) => parent.family,
      strata: ({ parent }) => parent.strata.join("|"),
      statistic: ({ parent }) => parent.statistic,
      degrees_of_freedom: ({ parent }) => parent.degrees_of_freedom,
      p: ({ parent }) => parent.p,
      reason: ({ parent }) => parent.reason,
      group: ({ child }) => child.label,
      injuries: ({ child }) => child.n,
      observed: ({ child }) => child.observed,
      expected: ({ child }) => child.expected,
    },
  });
