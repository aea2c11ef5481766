import { ArgumentError } from "../shared/arguments.js";
import { normalCritical, normalLowerTail } from "../shared/distributions.js";
import { confidenceLevel, needed, number, type OptionsOf, oneOf, readOptions } from "../shared/options.js";
import { bothQuantiles, plannedOptions } from "./planned.js";

/** By the variance of the logarithm of the ratio, or of the log-rank statistic with unlike risk sets. */
export const eventFormulas = ["schoenfeld", "freedman"] as const;

const eventsOptions = {
  /** Rate of return of the second group over that of the first; not 1. */
  hazardRatio: needed(number("positive")),
  /** Default "schoenfeld". */
  formula: oneOf(eventFormulas, "schoenfeld"),
  ...plannedOptions,
};
export interface EventsForRatioOptions extends OptionsOf<typeof eventsOptions> {}

function checkRatio(hazardRatio: number): void {
  if (hazardRatio !== 1) return;
  throw new ArgumentError({
    argument: "hazardRatio",
    index: null,
    expected: "another number than 1, which is no difference",
    found: hazardRatio,
  });
}

/**
 * Returns, in both groups together, with which a log-rank test or a hazards regression tells a ratio of rates from 1.
 *
 * Schoenfeld: (z_level + z_power)^2 / (p (1 - p) log(ratio)^2), p the first group's part of the people. Freedman: (z_level + z_power)^2 (1 + r h)^2 /
 * (r (1 - h)^2), r the ratio of the sizes, h that of the rates.
 *
 * @returns a number that is not rounded
 * @throws ArgumentError naming the option at fault; `hazardRatio` where it is 1
 * @source Schoenfeld 1983, Biometrics 39:499; Freedman 1982, Stat Med 1:121
 * @example
 * eventsForRatio({ hazardRatio: 2 }) // => 65.3456592588709
 */
export function eventsForRatio(options: EventsForRatioOptions): number {
  const { hazardRatio, formula, ratio, ...sure } = readOptions(eventsOptions, options);
  checkRatio(hazardRatio);
  const squared = bothQuantiles(sure) ** 2;
  return formula === "freedman"
    ? (squared * (1 + ratio * hazardRatio) ** 2) / (ratio * (1 - hazardRatio) ** 2)
    : (squared * (1 + ratio) ** 2) / (ratio * Math.log(hazardRatio) ** 2);
}

const powerOptions = {
  hazardRatio: eventsOptions.hazardRatio,
  /** Returns in both groups together. */
  events: needed(number("positive")),
  level: confidenceLevel,
  ratio: plannedOptions.ratio,
};
export interface PowerOfEventsOptions extends OptionsOf<typeof powerOptions> {}

/**
 * In what part of the studies with so many returns a ratio of rates is told from 1, the far tail left out.
 *
 * @throws ArgumentError naming the option at fault
 * @source Schoenfeld 1983, Biometrics 39:499
 */
export function powerOfEvents(options: PowerOfEventsOptions): number {
  const { hazardRatio, events, level, ratio } = readOptions(powerOptions, options);
  const precision = Math.sqrt((events * ratio) / (1 + ratio) ** 2);
  return normalLowerTail(Math.abs(Math.log(hazardRatio)) * precision - normalCritical(level));
}

const seenOptions = {
  /** Returns per unit of time, the same throughout: log(2) over the median time. */
  rate: needed(number("positive")),
  /** For how long people come into the study, evenly. Default 0: all at once. */
  accrual: number("not negative", 0),
  /** For how long the last one is followed. */
  followUp: needed(number("not negative")),
  /** Rate at which people are lost, or come to another end after which no return is seen. Default 0. */
  otherEnds: number("not negative", 0),
};
export interface ShareSeenOptions extends OptionsOf<typeof seenOptions> {}

/**
 * The part of the people of a group whose return a study sees: exponential times, people coming in evenly, losses and other ends at a constant
 * rate. Returns over this part are people.
 *
 * With rates a of return and b of other ends, c = a + b: a / c (1 - (exp(-c f) - exp(-c (A + f))) / (c A)), A the accrual and f the follow-up.
 *
 * @throws ArgumentError naming the option at fault
 * @source Lachin & Foulkes 1986, Biometrics 42:507
 */
export function shareSeen(options: ShareSeenOptions): number {
  const { rate, accrual, followUp, otherEnds } = readOptions(seenOptions, options);
  const all = rate + otherEnds;
  const stillThere =
    accrual === 0
      ? Math.exp(-all * followUp)
      : (Math.exp(-all * followUp) * -Math.expm1(-all * accrual)) / (all * accrual);
  return (rate / all) * (1 - stillThere);
}
