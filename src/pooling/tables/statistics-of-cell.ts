import { competingEnds } from "../../schema/terms.js";
import type { RiskSetTable } from "../../statistics/pooling/tables/index.js";
import type { RiskSetCell, TableEnd } from "./risk-sets.js";

const columnOf: Readonly<Record<TableEnd, number>> = {
  milestone: 0,
  ...(Object.fromEntries(competingEnds.map((end, i) => [end, 1 + i])) as Record<
    (typeof competingEnds)[number],
    number
  >),
  another_end: 1 + competingEnds.length,
};
const columns = 2 + competingEnds.length;

/** A cell as a table of the statistics layer; the groups but the first, with which they are compared, are its covariates. */
export function statisticsOf(
  cell: RiskSetCell,
  codes: { readonly group: number; readonly stratum: number; readonly groups: number },
): RiskSetTable {
  const n = cell.day.length;
  const none = new Array<number>(n).fill(0);
  const events = Array.from({ length: columns }, () => none);
  for (const [end, counts] of Object.entries(cell.ended) as [TableEnd, readonly number[]][])
    events[columnOf[end]] = [...counts];
  const others = Array.from({ length: codes.groups - 1 }, (_, i) => i + 1);
  return {
    times: cell.day,
    entered: cell.entered,
    censored: cell.censored,
    events,
    groups: new Array<number>(n).fill(codes.group),
    strata: new Array<number>(n).fill(codes.stratum),
    covariates: {
      names: others.map((code) => `group ${code}`),
      columns: others.map((code) => new Array<number>(n).fill(Number(code === codes.group))),
    },
  };
}
