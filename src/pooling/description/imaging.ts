import type { Question } from "../../cohort/question.js";
import { countsBy } from "../../study/account.js";
import type { Analysed } from "./analysed.js";
import type { ExactDescription } from "./site-description.js";

/** With what the distances of the analysed injuries were read, and by whom; null without readings. */
export function imagingOf(
  analysed: readonly Analysed[],
  { closedOn }: Pick<Question, "closedOn">,
): ExactDescription["imaging"] {
  const ofInjuries = analysed
    .map(({ linked }) =>
      linked.imaging.map(({ values }) => values).filter(({ date }) => closedOn === null || date <= closedOn),
    )
    .filter((readings) => readings.length > 0);
  const readings = ofInjuries.flat();
  if (readings.length === 0) return null;
  const raters = new Set(readings.flatMap(({ rater }) => (rater === null ? [] : [rater])));
  return {
    readings: readings.length,
    injuries: ofInjuries.length,
    modalities: countsBy(readings, ({ modality }) => modality),
    raters: raters.size === 0 ? null : raters.size,
    readings_with_rater: readings.filter(({ rater }) => rater !== null).length,
    read_by_several: ofInjuries.filter(isReadAgain).length,
    blinded: countsBy(readings, ({ blinded }) => blinded ?? "not_recorded"),
  };
}

type Readings = readonly Analysed["linked"]["imaging"][number]["values"][];

/** Whether one distance was read more than once on one day: by two raters, or twice by one. */
function isReadAgain(readings: Readings): boolean {
  const places = readings.map(({ date, pulley, position, side, taped }) =>
    JSON.stringify([date, pulley, position, side, taped]),
  );
  return new Set(places).size < places.length;
}
