import fc from "fast-check";
import { everyInjury } from "../../../src/cohort/eligible.js";
import type { Question } from "../../../src/cohort/index.js";
import { dateOfDay, dayNumber } from "../../../src/schema/dates.js";
import type { ImagingRow } from "../../../src/schema/imaging.js";
import type { InjuryRow } from "../../../src/schema/injuries.js";
import * as terms from "../../../src/schema/terms.js";
import type { TreatmentRow } from "../../../src/schema/treatments.js";
import type { VisitRow } from "../../../src/schema/visits.js";
import { injuryOf, readingOf, treatmentOf, visitOf } from "../../reference/cohort/history.js";

/** The rows of one injury, in no order, as hostile as typed rows can be: blanks and contradictions everywhere. */
export interface Rows {
  readonly injury: InjuryRow;
  readonly treatments: readonly TreatmentRow[];
  readonly imaging: readonly ImagingRow[];
  readonly visits: readonly VisitRow[];
}

const origin = dayNumber("2024-01-15");
const dayIn = (min: number, max: number) =>
  fc.integer({ min, max }).map((offset) => dateOfDay(origin + offset));
/** Mostly after the injury, now and then about or before it. */
const day = fc.oneof({ weight: 9, arbitrary: dayIn(50, 400) }, { weight: 1, arbitrary: dayIn(-40, 80) });
const maybe = <T>(some: fc.Arbitrary<T>) => fc.oneof(fc.constant(null), some);
const seldom = <T>(some: fc.Arbitrary<T>) =>
  fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: some });

const milestoneOf = (precisions: readonly terms.Precision[]) => (milestone: terms.Milestone) =>
  fc
    .record({
      date: seldom(day),
      precision: maybe(fc.constantFrom(...precisions)),
      not_before: seldom(day),
      not_after: seldom(day),
    })
    .map((parts) =>
      Object.fromEntries(Object.entries(parts).map(([part, value]) => [`${milestone}_${part}`, value])),
    );

/** One injury with up to five rows of each kind, about days either side of the injury. */
export const rowsOf = (precisions: readonly terms.Precision[] = terms.precisions): fc.Arbitrary<Rows> => {
  const answer = maybe(fc.constantFrom(...terms.yesNoUnknown));
  const injury = fc
    .tuple(
      fc.record({
        injury_date_precision: maybe(fc.constantFrom(...precisions)),
        injury_date: dayIn(0, 60),
        first_visit_date: maybe(day),
        last_contact_date: day,
        end_status: maybe(fc.constantFrom(...terms.endStatuses)),
        site_id: maybe(fc.constantFrom("site-a", "site-b")),
        new_rupture_date: seldom(day),
        gave_up_date: seldom(day),
      }),
      ...terms.milestones.map(milestoneOf(precisions)),
    )
    .map((parts) => injuryOf(Object.assign({}, ...parts)));
  const few = <T>(row: fc.Arbitrary<T>) => fc.array(row, { maxLength: 5 });
  return fc.record({
    injury,
    treatments: few(
      fc.record({
        treatment: fc.constantFrom(...terms.treatments),
        start_date: fc.oneof({ weight: 4, arbitrary: day }, { weight: 1, arbitrary: fc.constant(null) }),
        end_date: maybe(day),
        order: seldom(fc.integer({ min: 1, max: 3 })),
      }),
    ).map((rows) => rows.map(treatmentOf)),
    imaging: few(
      fc.record({
        date: day,
        position: fc.constantFrom(...terms.positions),
        distance_mm: fc.integer({ min: 0, max: 150 }).map((tenths) => tenths / 10),
        side: maybe(fc.constantFrom(...terms.sides)),
        bound: maybe(fc.constantFrom(...terms.bounds)),
        taped: maybe(fc.constantFrom("yes" as const, "no" as const)),
      }),
    ).map((rows) => rows.map(readingOf)),
    visits: fc
      .uniqueArray(
        fc.record({ date: day, easy_climbing: answer, full_climbing: answer, previous_level: answer }),
        { maxLength: 5, selector: ({ date }) => date },
      )
      .map((rows) => rows.map(visitOf)),
  });
};

/** Any question that a study file can ask. */
export const anyQuestion: fc.Arbitrary<Question> = fc.record({
  milestone: fc.constantFrom(...terms.milestones),
  clock: fc.constantFrom("injury", "first_visit", "treatment_start"),
  entry: fc.constantFrom("clock", "first_visit"),
  inexactDates: fc.constantFrom("midpoint", "latest", "earliest"),
  competingEnds: fc.subarray([...terms.competingEnds]),
  treatmentsOfInterest: fc.subarray([...terms.treatments], { minLength: 1 }),
  treatmentWithoutStart: fc.constantFrom("left_out", "from_injury"),
  // most ask about every injury, so that most histories give a record
  who: seldom(
    fc.record({
      sites: seldom(fc.subarray(["site-a", "site-b"])),
      grades: seldom(fc.subarray([...terms.grades])),
      pulleys: seldom(fc.subarray([...terms.pulleys])),
      extents: seldom(fc.subarray([...terms.extents])),
      fingers: seldom(fc.subarray([...terms.fingers])),
      age: seldom(fc.record({ from: fc.nat(60), to: fc.integer({ min: 60, max: 120 }) })),
      firstVisitWithinDays: seldom(fc.nat(400)),
    }),
  ).map((who) => who ?? everyInjury),
  closedOn: seldom(day),
});
