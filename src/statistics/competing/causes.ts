import { checkColumn, checkSameLength } from "../shared/arguments.js";
import { number } from "../shared/options.js";

/** Times with the event that came first: cause 0 where follow-up ended without any, else 1, 2, ... */
export interface TimesAndCauses {
  readonly times: ArrayLike<number>;
  readonly causes: ArrayLike<number>;
}

/** @throws ArgumentError naming the column and index at fault */
export function checkTimesAndCauses(columns: TimesAndCauses): void {
  const times = { name: "times", values: columns.times };
  const causes = { name: "causes", values: columns.causes };
  checkColumn(times, "not negative");
  checkSameLength(causes, times);
  checkColumn(causes, "count");
}

/** Which event is asked about. */
export const causeOption = number("positive count", 1);

/** 1 where that cause came first, else 0. */
export const eventsOfCause = (causes: ArrayLike<number>, cause: number): Uint8Array =>
  Uint8Array.from(causes, (one) => (one === cause ? 1 : 0));
