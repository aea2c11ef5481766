import { personCodes } from "../cohort/columns.js";
import { complicationAfter } from "../cohort/complications.js";
import type { OutcomeRecord } from "../cohort/record.js";
import { finalStates, returnStates, statesOf } from "../cohort/return-states.js";
import { timeAfterReturn } from "../cohort/time-after-return.js";
import { proportionInterval } from "../statistics/proportions/index.js";
import { clusteredRate, eventRate } from "../statistics/rates/index.js";
import { type StateProbabilities, stateAt, stateProbabilities } from "../statistics/states/index.js";
import { lastDayShown } from "./days-shown.js";
import { estimateOf, missing } from "./estimates.js";
import type { ExactResults } from "./exact-results.js";
import type { Group, Grouping } from "./groups.js";
import type { Estimate } from "./results-parts.js";
import { backAndWellFromSpans } from "./spans/well.js";
import type { Specification } from "./specification.js";
import { statesOverTime } from "./states-over-time.js";
import { daysOfMonth } from "./units-of-time.js";

type AfterReturn = NonNullable<ExactResults["after_return"]>;
type OfGroup = AfterReturn["groups"][number];
type Asked = Pick<Specification, "landmarks" | "level" | "horizonDay">;

/** Person-months for which a rate is told. */
const per = 100;

const back = returnStates.indexOf("back");
const rupturedAgain = returnStates.indexOf("ruptured_again");
const endedAfter = returnStates.indexOf("ended_after");

/**
 * What came after the return, for each group: a return that did not last is no success.
 *
 * @param groupings the first holds every injury
 */
export function afterReturnOf(groupings: readonly Grouping[], asked: Asked): AfterReturn {
  const records = (groupings[0]?.groups ?? []).flatMap((group) => group.records);
  return {
    groups: groupings.flatMap(({ family, groups }) =>
      groups.map((group) => ({ family: family as OfGroup["family"], ...ofGroup(group, asked) })),
    ),
    order_not_recorded: records.filter(({ ruptureWithinReturn }) => ruptureWithinReturn).length,
  };
}

function ofGroup(group: Group, { landmarks, level, horizonDay }: Asked): Omit<OfGroup, "family"> {
  const { label, records } = group;
  const { timeToEvent: columns } = group.columns;
  const persons = personCodes(records);
  const { newRuptures, daysToRupture, surgeries, clusters } = timeAfterReturn(records, persons);
  const personMonths = daysToRupture.map((days) => days / daysOfMonth);
  const counts = { events: sumOf(newRuptures), personTime: sumOf(personMonths) };
  const rate =
    columns.clusters === undefined
      ? eventRate(counts, { level })
      : clusteredRate({ events: newRuptures, personTimes: personMonths, clusters }, { level });
  const states = stateProbabilities(statesOf(records, persons), {
    absorbing: finalStates,
    level,
    // nothing is told of a later day but shares
    errorsUntil: Math.max(lastDayShown(horizonDay), ...landmarks.map(({ day }) => day)),
  });
  const scaled = (value: number | null) => (value === null ? null : per * value);
  return {
    label,
    n: records.length,
    returned: newRuptures.length,
    ruptured_again: counts.events,
    operated: sumOf(surgeries),
    person_months: counts.personTime,
    rate: estimateOf({
      value: scaled(rate.estimate),
      lower: scaled(rate.lower),
      upper: scaled(rate.upper),
      reason: rate.reason,
    }),
    landmarks: landmarks.map(({ week, day }) => ({
      week,
      day,
      back_and_well:
        backAndWellFromSpans(group, {
          day,
          left: [rupturedAgain, endedAfter].map((state) => shareIn(states, { day, state })),
        }) ?? shareIn(states, { day, state: back }),
      ruptured_again: shareIn(states, { day, state: rupturedAgain }),
    })),
    over_time: statesOverTime(states, horizonDay),
    level: levelsOf(records),
    complications: complicationsIn(records, level),
  };
}

const sumOf = (values: ArrayLike<number>): number =>
  Array.from(values).reduce((sum, value) => sum + value, 0);

/** A share in a state, unless nobody is followed after the return: whether it lasted is then not known. */
function shareIn(
  states: StateProbabilities,
  { day, state }: { readonly day: number; readonly state: number },
): Estimate {
  const { share, lower, upper, reason, limitsReason, notFollowed } = stateAt(states, { time: day, state });
  if (notFollowed.includes(back)) return missing("beyond-follow-up");
  return estimateOf({ value: share, lower, upper, reason: reason ?? limitsReason });
}

function levelsOf(records: readonly OutcomeRecord[]): OfGroup["level"] {
  const levels = records.flatMap(({ after }) => (after === null ? [] : [after.level]));
  const count = (wanted: (typeof levels)[number]) => levels.filter((level) => level === wanted).length;
  return { below: count("below"), same: count("same"), above: count("above"), not_recorded: count(null) };
}

/** Complications first found after the first treatment began, among those who were asked after it. */
function complicationsIn(records: readonly OutcomeRecord[], level: number): OfGroup["complications"] {
  const answers = records
    .flatMap((record) =>
      record.firstTreatmentDay === null ? [] : [complicationAfter(record, record.firstTreatmentDay)],
    )
    .filter((answer) => answer !== null);
  const found = answers.filter((answer) => answer).length;
  const asked = answers.length;
  if (asked === 0) return { asked, found, share: missing("no-rows") };
  const {
    estimate: value,
    lower,
    upper,
    reason,
  } = proportionInterval({ successes: found, n: asked }, { method: "exact", level });
  return { asked, found, share: estimateOf({ value, lower, upper, reason }) };
}
