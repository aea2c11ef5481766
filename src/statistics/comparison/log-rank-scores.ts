import { rowsByStratum } from "../shared/codes.js";
import { countsByGroup } from "./counts-by-group.js";
import type { GroupedTimes, TimeWeight } from "./grouped-times.js";
import { forEachEventTime } from "./observed-and-expected.js";

/**
 * Score of each row, which no grouping enters: w(T) if it had its event at T, less the sum of w d / n over the event times at which it was
 * at risk. Observed less expected events of a group are the sum of its rows' scores; within a stratum they sum to 0.
 *
 * @source Peto & Peto 1972, J R Stat Soc A 135:185
 */
export function logRankScores(columns: GroupedTimes, weight: TimeWeight): Float64Array {
  const scores = new Float64Array(columns.times.length);
  const group = new Int32Array(columns.times.length);
  for (const rows of rowsByStratum(columns)) {
    const stratum = { ...countsByGroup(columns, { rows, group, size: 1 }), size: 1 };
    const weights = new Float64Array(stratum.count);
    const hazard = new Float64Array(stratum.count + 1); // what came before each time
    forEachEventTime(stratum, weight, ({ at, d, n, w }) => {
      weights[at] = w;
      hazard[at + 1] = (w * d) / n;
    });
    for (let i = 1; i < hazard.length; i++) hazard[i]! += hazard[i - 1]!;
    for (let i = 0; i < rows.length; i++) {
      const row = rows[i]!;
      const last = stratum.position[i]!;
      const first = stratum.start === null ? 0 : stratum.start[i]!;
      const seen = columns.events[row] === 1 ? weights[last]! : 0;
      scores[row] = seen - (hazard[last + 1]! - hazard[first]!);
    }
  }
  return scores;
}
