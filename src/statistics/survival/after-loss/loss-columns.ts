import { ArgumentError, checkColumn, checkSameLength } from "../../shared/arguments.js";
import type { NamesOf } from "../../shared/options.js";
import { checkEntries, checkOptional } from "../../shared/time-to-event.js";
import { type CompetingEvents, checkCauses, competingEventsNames } from "../competing-events.js";

/** Rows with what came first, and 1 in `lost` where follow-up was broken off (0 where it ended because the data were closed). */
export interface LossEvents extends CompetingEvents {
  readonly lost: ArrayLike<number>;
}

export const lossEventsNames: NamesOf<LossEvents> = { lost: true, ...competingEventsNames };

/** @throws ArgumentError naming the column and index of a value at fault */
export function checkLoss(columns: LossEvents): void {
  const { times, clusters } = columns;
  checkCauses(columns);
  checkColumn({ name: "times", values: times }, "not negative");
  checkEntries(columns);
  checkOptional({ name: "clusters", values: clusters, kind: "code" }, times);
  const lost = { name: "lost", values: columns.lost };
  checkSameLength(lost, { name: "times", values: columns.times });
  checkColumn(lost, "zero or one");
  for (let i = 0; i < columns.lost.length; i++)
    if (columns.lost[i] === 1 && columns.causes[i] !== 0)
      throw new ArgumentError({
        argument: "lost",
        index: i,
        expected: `0, since causes[${i}] says that an event came`,
        found: 1,
      });
}
