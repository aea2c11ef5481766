import { dayNumber } from "../schema/dates.js";
import { type Treatment, treatments } from "../schema/terms.js";
import type { TreatmentRow } from "../schema/treatments.js";
import type { EarlierTreatments, FirstTreatment } from "./first-treatment.js";
import type { Question } from "./question.js";
import type { Episode, LinkedInjury } from "./record.js";

type Asked = Pick<Question, "treatmentsOfInterest" | "treatmentWithoutStart">;

/**
 * The treatment of interest that began first; `several` where two different ones began on that day
 * (two kinds of one treatment are one treatment). Other treatments, before or after, are background. A treatment of which
 * it is not known which it was may be of interest.
 *
 * Without a start, the place in `order` tells which came first where every treatment of interest has one. The treatment
 * is then known by name, and its day is null, or the day of the injury where the question says so.
 *
 * @returns null where there was none
 */
export function firstTreatment(linked: LinkedInjury, asked: Asked): FirstTreatment | null {
  const counted = linked.treatments
    .map(({ values }) => values)
    .filter(({ treatment }) => treatment === "not_stated" || asked.treatmentsOfInterest.includes(treatment));
  if (counted.length === 0) return null;
  const first = firstInOrder(counted) ?? onlyTreatment(counted);
  if (first === null || isEarlierMissing(first, linked))
    return { treatment: "order_not_known", day: null, isAssumed: false };
  const { start_date } = first;
  const onThatDay = counted.filter((other) => other === first || isOnDay(other, start_date));
  const { treatment } = first;
  if (treatment === "not_stated" || onThatDay.some((other) => other.treatment === "not_stated"))
    return { treatment: "not_read", day: null, isAssumed: false };
  if (start_date !== null) {
    const alone = onThatDay.every((other) => other.treatment === treatment);
    return { treatment: alone ? treatment : "several", day: dayNumber(start_date), isAssumed: false };
  }
  const isAssumed = asked.treatmentWithoutStart === "from_injury";
  return { treatment, day: isAssumed ? dayNumber(linked.injury.values.injury_date) : null, isAssumed };
}

/** The first of the treatments that are not of interest, by the same rule; null where there was none. */
export function otherTreatment(
  linked: LinkedInjury,
  { treatmentsOfInterest }: Pick<Question, "treatmentsOfInterest">,
): FirstTreatment["treatment"] | null {
  const others = treatments.filter((treatment) => !treatmentsOfInterest.includes(treatment));
  const asked = { treatmentsOfInterest: others, treatmentWithoutStart: "left_out" } as const;
  return firstTreatment(linked, asked)?.treatment ?? null;
}

const nothingEarlier: EarlierTreatments = { treatments: [], isNotKnown: false };

/**
 * The treatments that are not of interest and began before the first that is: by their starts where both are known, else by
 * their places in order. One that began on the same day did not begin before it.
 *
 * @param first the first treatment of interest by the same question; null where there was none
 */
export function earlierTreatments(
  { treatments: rows }: LinkedInjury,
  {
    first,
    treatmentsOfInterest,
  }: Pick<Question, "treatmentsOfInterest"> & { readonly first: FirstTreatment | null },
): EarlierTreatments {
  // one that is not stated may be of interest: it was looked at for being the first
  const stated = rows.map(({ values }) => values).filter(isStated);
  const others = stated.filter(({ treatment }) => !treatmentsOfInterest.includes(treatment));
  if (first === null || others.length === 0) return nothingEarlier;
  const places = stated.flatMap(({ treatment, order }) =>
    treatmentsOfInterest.includes(treatment) && order !== null ? [order] : [],
  );
  const place = places.length === 0 ? null : Math.min(...places);
  const day = first.isAssumed ? null : first.day;
  const told = others.map((row) => ({
    treatment: row.treatment,
    isBefore: isBefore(row, { day, place }),
  }));
  return {
    treatments: treatments.filter((one) =>
      told.some(({ treatment, isBefore }) => treatment === one && isBefore === true),
    ),
    isNotKnown: told.some(({ isBefore }) => isBefore === null),
  };
}

type Stated = TreatmentRow & { readonly treatment: Treatment };
const isStated = (row: TreatmentRow): row is Stated => row.treatment !== "not_stated";

/** Whether a row came before a day, or before a place in order; null where neither tells. */
function isBefore(
  { start_date, order }: Named,
  { day, place }: { readonly day: number | null; readonly place: number | null },
): boolean | null {
  if (start_date !== null && day !== null) return dayNumber(start_date) < day;
  return order === null || place === null ? null : order < place;
}

const isOnDay = (one: Named, day: string | null): boolean => day !== null && one.start_date === day;

type Named = Pick<TreatmentRow, "treatment" | "start_date" | "order">;

/** The row that came first: by the starts where all are known, else by the places where all have one. */
function firstInOrder(counted: readonly Named[]): Named | null {
  if (counted.every(({ start_date }) => start_date !== null)) return counted[0]!;
  if (counted.some(({ order }) => order === null)) return null;
  return counted.toSorted((one, other) => one.order! - other.order!)[0]!;
}

/** The one treatment that all rows name, without a day. */
const onlyTreatment = ([first, ...others]: readonly Named[]): Named | null =>
  others.every(({ treatment }) => treatment === first!.treatment) ? { ...first!, start_date: null } : null;

/** Whether a treatment stands in a later place and what stood in the first is not known. */
const isEarlierMissing = ({ order }: Named, { treatments: rows }: LinkedInjury): boolean =>
  order !== null && order > 1 && !rows.some(({ values }) => values.order !== null && values.order < order);

/** All episodes whose start is known, in its order, in whole days from day 0: negative where they began before it. */
export function episodesFrom({ treatments }: LinkedInjury, dayZero: number): readonly Episode[] {
  return treatments.flatMap(({ values: { treatment, kind, start_date, end_date } }) =>
    start_date === null
      ? []
      : [
          {
            treatment,
            kind,
            from: dayNumber(start_date) - dayZero,
            to: end_date === null ? null : dayNumber(end_date) - dayZero,
          },
        ],
  );
}
