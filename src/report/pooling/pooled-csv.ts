import type { PooledAnswer, PooledResults } from "../../pooling/pooled/index.js";
import { csvText } from "../../schema/csv-text.js";
import { cautionLine, syntheticLine } from "../../words/cautions.js";
import type { ReportFile } from "../report-file.js";
import { type ColumnsOf, type FlatTable, flatTable, unfold } from "../tables/reshape.js";
import { markedName } from "../tables.js";
import { tableCsv } from "./table-csv.js";

/** The pooled answers, each site's own and the answers without each site, as CSV at full precision. */
export function pooledTableFiles(results: PooledResults): ReportFile[] {
  const { answers, agreed } = results;
  const { synthetic } = agreed.file;
  const tables: FlatTable[] = [
    flatTable("pooled-answers", { things: answers, columns: ofAnswer }),
    flatTable("pooled-sites", { things: unfold(answers, ({ sites }) => sites), columns: ofSite }),
    flatTable("pooled-without-each-site", {
      things: unfold(answers, ({ without }) => without),
      columns: {
        id: ({ parent }) => parent.id,
        site_left_out: ({ child }) => child.site,
        value: ({ child }) => child.value,
        lower: ({ child }) => child.lower,
        upper: ({ child }) => child.upper,
      },
    }),
    flatTable("characteristics-of-sites", {
      things: unfold(results.explained.characteristics, ({ sites }) => sites),
      columns: {
        characteristic: ({ parent }) => parent.characteristic,
        unit: ({ parent }) => parent.unit,
        site: ({ child }) => child.site,
        value: ({ child }) => child.value,
      },
    }),
    flatTable("lines-on-characteristics", {
      things: results.explained.lines,
      columns: {
        id: ({ answer }) => answer,
        characteristic: ({ characteristic }) => characteristic,
        sites: ({ sites }) => sites,
        change: ({ value }) => value,
        lower: ({ lower }) => lower,
        upper: ({ upper }) => upper,
        p: ({ p }) => p,
        tau: ({ tau }) => tau,
        tau_without: ({ tau_without }) => tau_without,
        reason: ({ reason }) => reason,
      },
    }),
    flatTable("small-sites", {
      things: results.explained.small_sites,
      columns: {
        id: ({ answer }) => answer,
        sites: ({ sites }) => sites,
        slope: ({ slope }) => slope,
        lower: ({ lower }) => lower,
        upper: ({ upper }) => upper,
        p: ({ p }) => p,
        reason: ({ reason }) => reason,
      },
    }),
    flatTable("contributions", {
      things: results.sites,
      columns: {
        site: ({ site }) => site,
        injuries: ({ n }) => n,
        people: ({ persons }) => persons,
        returned: ({ events }) => events,
        small_cells: ({ small_cells }) => small_cells.choice,
        smallest_cell: ({ small_cells }) => small_cells.smallest,
        held_back: ({ held_back }) => held_back.length,
        toolkit_version: ({ toolkit_version }) => toolkit_version,
        summary_sha256: ({ summary_sha256 }) => summary_sha256,
      },
    }),
    ...tableCsv(results),
  ];
  const about = [
    ...(synthetic ? [syntheticLine, ""] : []),
    cautionLine,
    "",
    "UTF-8, commas, a header line; blank where there is no value, with the reason as a code beside it.",
    "Shares lie between 0 and 1, differences of shares between -1 and 1; days are whole days from the day that the study file names.",
    "estimate and its error are on the scale of pooling: the logit of a share, a difference of shares, days.",
    "",
    ...tables.map(
      ({ name, columns }) =>
        `${markedName(name, synthetic)}.csv: ${columns.map((one) => one.replaceAll("_", " ")).join(", ")}`,
    ),
    "",
  ].join("\n");
  return [
    ...tables.map(({ name, columns, rows }) => ({
      path: `tables/${markedName(name, synthetic)}.csv`,
      content: synthetic
        ? csvText(
            ["data", ...columns],
            rows.map((row) => ["SYNTHETIC", ...row]),
          )
        : csvText(columns, rows),
    })),
    { path: "tables/about-these-tables.txt", content: about },
  ];
}

const common: ColumnsOf<PooledAnswer> = {
  id: ({ id }) => id,
  of: ({ of }) => of,
  family: ({ family }) => family,
  group: ({ label }) => label,
  compared: ({ compared }) => compared,
  reference: ({ reference }) => reference,
  adjusted_for: ({ adjusted_for }) => adjusted_for.join("|"),
  measure: ({ measure }) => measure,
  end: ({ end }) => end,
  week: ({ week }) => week,
  day: ({ day }) => day,
  scale: ({ scale }) => scale,
  pooled_by: ({ pooled_by }) => pooled_by,
};

const ofAnswer: ColumnsOf<PooledAnswer> = {
  ...common,
  sites: ({ used }) => used,
  injuries: ({ n }) => n.told,
  injuries_not_told_at: ({ n }) => n.not_told,
  people: ({ persons }) => persons.told,
  people_not_told_at: ({ persons }) => persons.not_told,
  returned: ({ events }) => events.told,
  returned_not_told_at: ({ events }) => events.not_told,
  random_value: ({ random }) => random.value,
  random_lower: ({ random }) => random.lower,
  random_upper: ({ random }) => random.upper,
  random_estimate: ({ random }) => random.estimate,
  random_standard_error: ({ random }) => random.standard_error,
  random_df: ({ random }) => random.df,
  random_p: ({ random }) => random.p,
  random_reason: ({ random }) => random.reason,
  prediction_lower: ({ random }) => random.prediction.lower,
  prediction_upper: ({ random }) => random.prediction.upper,
  tau_squared: ({ random }) => random.spread.tau_squared.value,
  tau_squared_lower: ({ random }) => random.spread.tau_squared.lower,
  tau_squared_upper: ({ random }) => random.spread.tau_squared.upper,
  tau_squared_paule_mandel: ({ paule_mandel }) => paule_mandel.spread.tau_squared.value,
  common_value: ({ common: one }) => one.value,
  common_lower: ({ common: one }) => one.lower,
  common_upper: ({ common: one }) => one.upper,
  common_estimate: ({ common: one }) => one.estimate,
  common_standard_error: ({ common: one }) => one.standard_error,
  q: ({ heterogeneity }) => heterogeneity.q,
  q_df: ({ heterogeneity }) => heterogeneity.df,
  q_p: ({ heterogeneity }) => heterogeneity.p,
  i_squared: ({ heterogeneity }) => heterogeneity.i_squared.value,
};

const ofSite: ColumnsOf<{ readonly parent: PooledAnswer; readonly child: PooledAnswer["sites"][number] }> = {
  id: ({ parent }) => parent.id,
  measure: ({ parent }) => parent.measure,
  week: ({ parent }) => parent.week,
  site: ({ child }) => child.site,
  path: ({ child }) => child.path,
  injuries: ({ child }) => child.n,
  people: ({ child }) => child.persons,
  returned: ({ child }) => child.events,
  value: ({ child }) => child.value,
  lower: ({ child }) => child.lower,
  upper: ({ child }) => child.upper,
  estimate: ({ child }) => child.estimate,
  variance: ({ child }) => child.variance,
  weight: ({ child }) => child.weight,
  reason: ({ child }) => child.reason,
};
