import { daysBetween } from "../dates.js";
import { type InjuryRow, injuryRow } from "../injuries.js";
import { type Milestone, milestones } from "../terms.js";
import { type DatedColumn, datedColumns, datedIn, notInFuture, surelyBefore } from "./dated.js";
import type { RowRule } from "./row-rule.js";

type Rules = readonly RowRule<InjuryRow>[];
type Column = DatedColumn<InjuryRow>;

/** The date of a milestone with its precision. */
export const milestoneDate = (milestone: Milestone): Column => ({
  column: `${milestone}_date`,
  precision: `${milestone}_precision`,
});

const injuryDate = datedColumns(injuryRow, "injury")[0]!;
const lastContact = datedColumns(injuryRow, "last-contact")[0]!;
const events = datedColumns(injuryRow, "course");

const notBeforeInjury: Rules = [...events, lastContact].map((event) => ({
  code: "event-before-injury",
  severity: "set-aside",
  check: (values) => {
    const found = datedIn(values, event);
    if (found === null) return null;
    const injury = datedIn(values, injuryDate)!;
    if (!surelyBefore(found, injury)) return null;
    return { column: event.column, found: found.date, facts: { injury_date: injury.date } };
  },
}));

const notAfterLastContact: Rules = events.map((event) => ({
  code: "event-after-last-contact",
  severity: "look-at",
  check: (values) => {
    const found = datedIn(values, event);
    if (found === null) return null;
    const last = datedIn(values, lastContact)!;
    if (!surelyBefore(last, found)) return null;
    return { column: event.column, found: found.date, facts: { last_contact_date: last.date } };
  },
}));

/** Easy before full before previous level; the outer two are compared where the middle one is blank. */
const inOrder: Rules = (
  [
    ["easy_climbing", "full_climbing"],
    ["full_climbing", "previous_level"],
    ["easy_climbing", "previous_level"],
  ] as const
).map(([earlier, later]) => ({
  code: "milestones-out-of-order",
  severity: "look-at",
  check: (values) => {
    const middleIsGiven =
      earlier === "easy_climbing" && later === "previous_level" && values.full_climbing_date !== null;
    const first = datedIn(values, milestoneDate(earlier));
    const second = datedIn(values, milestoneDate(later));
    if (middleIsGiven || first === null || second === null || !surelyBefore(second, first)) return null;
    return {
      column: `${later}_date`,
      found: second.date,
      facts: { earlier, later, earlier_date: first.date },
    };
  },
}));

const intervalsHold: Rules = milestones.flatMap((milestone): Rules => {
  const [notBefore, date, notAfter]: readonly Column[] = [
    { column: `${milestone}_not_before` },
    milestoneDate(milestone),
    { column: `${milestone}_not_after` },
  ];
  const inThisOrder = (one: Column, other: Column): RowRule<InjuryRow> => ({
    code: "interval-inside-out",
    severity: "set-aside",
    check: (values) => {
      const [first, second] = [datedIn(values, one), datedIn(values, other)];
      if (first === null || second === null || !surelyBefore(second, first)) return null;
      return {
        column: one.column,
        found: first.date,
        facts: { other_column: other.column, other_date: second.date },
      };
    },
  });
  return [inThisOrder(notBefore!, date!), inThisOrder(date!, notAfter!), inThisOrder(notBefore!, notAfter!)];
});

/** A return of which only a day before it is known; a date beside that word would be taken for the day of the return. */
const laterNeedsBound: Rules = milestones.map((milestone) => ({
  code: "later-without-bound",
  severity: "set-aside",
  check: (values) => {
    const isLater = values[`${milestone}_precision`] === "later";
    const isBound = values[`${milestone}_date`] === null && values[`${milestone}_not_before`] !== null;
    return !isLater || isBound ? null : { column: `${milestone}_precision`, found: "later" };
  },
}));

const longestInterval = 26 * 7;

const intervalsNarrow: Rules = milestones.map((milestone) => ({
  code: "interval-over-26-weeks",
  severity: "look-at",
  check: (values) => {
    const [from, to] = [values[`${milestone}_not_before`], values[`${milestone}_not_after`]];
    if (values[`${milestone}_date`] !== null || from === null || to === null) return null;
    if (daysBetween(from, to) <= longestInterval) return null;
    return { column: `${milestone}_not_after`, found: to, facts: { not_before: from } };
  },
}));

/** A milestone after an end is another story than the first return: taken up again, or back after the second rupture. */
const notAfterEnds: Rules = (
  [
    ["gave_up_date", "milestone-after-giving-up"],
    ["new_rupture_date", "milestone-after-new-rupture"],
  ] as const
).flatMap(
  ([column, code]): Rules =>
    milestones.map((milestone) => ({
      code,
      severity: "look-at",
      check: (values) => {
        const [found, end] = [datedIn(values, milestoneDate(milestone)), datedIn(values, { column })];
        if (found === null || end === null || !surelyBefore(end, found)) return null;
        return { column: `${milestone}_date`, found: found.date, facts: { [column]: end.date } };
      },
    })),
);

/** The order of the dates within a row of the injuries, as far as their precision allows to tell. */
export const injuryDateRules: Rules = [
  ...notBeforeInjury,
  ...notInFuture([injuryDate, ...events, lastContact]),
  ...intervalsHold,
  ...laterNeedsBound,
  ...notAfterLastContact,
  ...inOrder,
  ...intervalsNarrow,
  ...notAfterEnds,
];
