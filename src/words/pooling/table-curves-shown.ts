import type { PooledResults } from "../../pooling/pooled/index.js";
import { groupWords } from "../group-phrases.js";
import { capital } from "../phrases.js";
import { clockWords, milestoneWords } from "../terms.js";
import type { PooledCurveShown } from "./pooled-curve-shown.js";
import { type AddedTables, fewBins, hasCommonCurve } from "./risk-sets.js";

/** The curves of the compared groups from risk-set tables, as figures show them. */
export function tableCurvesShown(results: Pick<PooledResults, "agreed" | "risk_sets">): PooledCurveShown[] {
  const tables = results.risk_sets?.together ?? null;
  if (tables === null || !hasCommonCurve(tables)) return [];
  return tables.curves.groups
    .filter(({ n, points }) => n > 0 && points.some(({ returned }) => returned !== null))
    .map((group, i) => groupShown(group, { place: i + 1, tables, file: results.agreed.file }));
}

function groupShown(
  { group, n, points, sites }: AddedTables["curves"]["groups"][number],
  {
    place,
    tables,
    file,
  }: {
    readonly place: number;
    readonly tables: AddedTables;
    readonly file: PooledResults["agreed"]["file"];
  },
): PooledCurveShown {
  const { back } = milestoneWords[file.question.milestone];
  const supposed = tables.curves.answers === "share_of_people" ? "" : ", if nobody came to another end";
  const known = points.flatMap(({ day, returned, lower, upper }) =>
    returned === null ? [] : [{ day, share: returned, lower, upper, prediction: null }],
  );
  const binsOf = new Map(tables.sites.map(({ site, bin_ends }) => [site, bin_ends.length]));
  return {
    id: `from-tables-${place}`,
    title: `${capital(back)}, injuries ${groupWords({ by: file.compare.by, label: group }).of}: each site and all together`,
    shareTitle: `share ${back}${supposed}`,
    timeTitle: `weeks since ${clockWords[file.question.clock]}`,
    sites: sites.map(({ site, points: own }) => ({
      site,
      points: own.map(({ day, returned }) => ({ day, share: returned })),
      lastDay: own.at(-1)?.day ?? 0,
      coarse: (binsOf.get(site) ?? 0) < fewBins,
    })),
    pooled: {
      points: known,
      lastDay: known.at(-1)?.day ?? 0,
      coarse: tables.bin_ends.length < fewBins,
      sites: sites.length,
      injuries: n,
      method: "counts by bins of time, added over the sites",
      asOneGroup: true,
    },
    level: tables.level,
    synthetic: file.synthetic,
  };
}
