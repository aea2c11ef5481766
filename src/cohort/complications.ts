import { dayNumber, type IsoDate } from "../schema/dates.js";
import type { Complication } from "../schema/terms.js";
import { closeDay } from "./close.js";
import type { Complications, LinkedInjury, OutcomeRecord } from "./record.js";

/**
 * Complications found at visits by the close of the data, each kind once.
 *
 * @param options dayZero: day number of day 0; a visit before it has a negative day
 * @returns null where no visit says anything of them: nobody knows then whether there were any
 */
export function complicationsOf(
  { visits }: LinkedInjury,
  { closedOn, dayZero }: { readonly closedOn: IsoDate | null; readonly dayZero: number },
): Complications | null {
  const first = new Map<Complication, number>();
  let lastAsked: number | null = null;
  for (const { values } of visits) {
    const day = dayNumber(values.date);
    if (values.complication === null || day > closeDay(closedOn)) continue;
    lastAsked = day - dayZero;
    if (values.complication === "none" || first.has(values.complication)) continue;
    first.set(values.complication, lastAsked);
  }
  if (lastAsked === null) return null;
  return { found: [...first].map(([complication, day]) => ({ complication, day })), lastAsked };
}

/**
 * Whether a complication was found for the first time after a day: after the first treatment began, say, so that what was there before is
 * not put down to it.
 *
 * @param day from the clock
 * @returns null where no visit after that day says anything of complications
 */
export function complicationAfter(
  { complications }: Pick<OutcomeRecord, "complications">,
  day: number,
): boolean | null {
  if (complications === null || complications.lastAsked <= day) return null;
  return complications.found.some((one) => one.day > day);
}
