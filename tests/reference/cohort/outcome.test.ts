import { describe, expect, it } from "vitest";
import { deriveRecord, type Question } from "../../../src/cohort/index.js";
import { type History, linkedOf, questionOf } from "./history.js";

/**
 * Invented histories, worked by hand on a calendar: every name holds its sum. Day 0 is 2024-03-04, so that
 * 03-31 is day 27, 04-30 day 57, 05-31 day 88, 06-30 day 118, 07-31 day 149, 08-31 day 180, 10-31 day 241.
 */
interface Worked extends History {
  readonly name: string;
  readonly asked?: Partial<Question>;
  readonly gives: Record<string, unknown>;
}

const derived = ({ asked, ...history }: Worked) => deriveRecord(linkedOf(history), questionOf(asked));

const reached = (time: number, milestone: readonly [number, number, string]) => ({
  end: "milestone",
  time,
  milestone: { left: milestone[0], right: milestone[1], known: milestone[2] },
});
const without = (end: string, time: number, left = time) => ({
  end,
  time,
  milestone: { left, right: null, known: "not_reached" },
});

const dates: readonly Worked[] = [
  {
    name: "to the day: 03-04 to 06-03 is 27 + 30 + 31 + 3 = 91, in (90, 91]",
    injury: { full_climbing_date: "2024-06-03" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "to the week: day 91, three days either side, (87, 94], middle of 88 and 94 is 91",
    injury: { full_climbing_date: "2024-06-03", full_climbing_precision: "week" },
    gives: reached(91, [87, 94, "week"]),
  },
  {
    name: "to the month: June is days 89 to 118, (88, 118], floor((89 + 118) / 2) = 103",
    injury: { full_climbing_date: "2024-06-03", full_climbing_precision: "month" },
    gives: reached(103, [88, 118, "month"]),
  },
  {
    name: "to the month in a December: 2024-12-01 is day 272, 12-31 day 302, floor((272 + 302) / 2) = 287",
    injury: {
      full_climbing_date: "2024-12-31",
      full_climbing_precision: "month",
      last_contact_date: "2025-06-01",
    },
    gives: reached(287, [271, 302, "month"]),
  },
  {
    name: "to a February of a leap year: injured 2024-01-31, February is days 1 to 29, middle 15",
    injury: {
      injury_date: "2024-01-31",
      full_climbing_date: "2024-02-10",
      full_climbing_precision: "month",
    },
    gives: reached(15, [0, 29, "month"]),
  },
  {
    name: "to a February of a common year: injured 2023-01-31, February is days 1 to 28, floor(29 / 2) = 14",
    injury: {
      injury_date: "2023-01-31",
      full_climbing_date: "2023-02-28",
      full_climbing_precision: "month",
    },
    gives: reached(14, [0, 28, "month"]),
  },
  {
    name: "across a leap day: 2024-02-28 to 2024-03-01 is 2 days",
    injury: { injury_date: "2024-02-28", full_climbing_date: "2024-03-01" },
    gives: reached(2, [1, 2, "day"]),
  },
  {
    name: "the same days without a leap day: 2023-02-28 to 2023-03-01 is 1 day",
    injury: { injury_date: "2023-02-28", full_climbing_date: "2023-03-01" },
    gives: reached(1, [0, 1, "day"]),
  },
  {
    name: "across both clock changes of a zone with summer time: 2024-03-30 to 2024-10-28 is 212 days",
    injury: { injury_date: "2024-03-30", full_climbing_date: "2024-10-28" },
    gives: reached(212, [211, 212, "day"]),
  },
  {
    name: "on the day of the injury itself: day 0, in (-1, 0]",
    injury: { full_climbing_date: "2024-03-04" },
    gives: reached(0, [-1, 0, "day"]),
  },
  {
    name: "a week that begins before the injury: day 1 gives (-3, 4], cut to (-1, 4], middle of 0 and 4 is 2",
    injury: { full_climbing_date: "2024-03-05", full_climbing_precision: "week" },
    gives: reached(2, [-1, 4, "week"]),
  },
  {
    name: "a month that ends after the last contact: back by 06-20 (day 108), (88, 108], floor(197 / 2) = 98",
    injury: {
      full_climbing_date: "2024-06-15",
      full_climbing_precision: "month",
      last_contact_date: "2024-06-20",
    },
    gives: reached(98, [88, 108, "month"]),
  },
  {
    name: "a date after the last contact is a contact itself: day 91 though last contact was day 57",
    injury: { full_climbing_date: "2024-06-03", last_contact_date: "2024-04-30" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "a month dated after the last contact is not cut by it: June, (88, 118], 103",
    injury: {
      full_climbing_date: "2024-06-25",
      full_climbing_precision: "month",
      last_contact_date: "2024-06-20",
    },
    gives: reached(103, [88, 118, "month"]),
  },
];

const bounds: readonly Worked[] = [
  {
    name: "bounds alone: not on 05-20 (day 77), by 06-17 (day 105), (77, 105], floor((78 + 105) / 2) = 91",
    injury: { full_climbing_not_before: "2024-05-20", full_climbing_not_after: "2024-06-17" },
    gives: reached(91, [77, 105, "visits"]),
  },
  {
    name: "a month narrowed by bounds: (88, 118] and (95, 105] give (95, 105], floor(201 / 2) = 100",
    injury: {
      full_climbing_date: "2024-06-15",
      full_climbing_precision: "month",
      full_climbing_not_before: "2024-06-07",
      full_climbing_not_after: "2024-06-17",
    },
    gives: reached(100, [95, 105, "month"]),
  },
  {
    name: "a month narrowed by one bound: (88, 118] and by day 105 give (88, 105], floor(194 / 2) = 97",
    injury: {
      full_climbing_date: "2024-06-15",
      full_climbing_precision: "month",
      full_climbing_not_after: "2024-06-17",
    },
    gives: reached(97, [88, 105, "month"]),
  },
  {
    name: "bounds that shut the date out: (90, 91] and (95, 105] share no day, the date stands",
    injury: {
      full_climbing_date: "2024-06-03",
      full_climbing_not_before: "2024-06-07",
      full_climbing_not_after: "2024-06-17",
    },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "by 06-17 (day 105) with nothing before: (-1, 105], floor((0 + 105) / 2) = 52",
    injury: { full_climbing_not_after: "2024-06-17" },
    gives: reached(52, [-1, 105, "visits"]),
  },
  {
    name: "not before alone says nothing of a return: censored at last contact, day 259",
    injury: { full_climbing_not_before: "2024-05-20" },
    gives: without("censored", 259),
  },
  {
    name: "not before after the last contact is a contact: day 77 though last contact was day 57",
    injury: { full_climbing_not_before: "2024-05-20", last_contact_date: "2024-04-30" },
    gives: without("censored", 77),
  },
  {
    name: "bounds inside out (not on day 105, by day 77) are not used: censored at day 259",
    injury: { full_climbing_not_before: "2024-06-17", full_climbing_not_after: "2024-05-20" },
    gives: without("censored", 259),
  },
  {
    name: "bounds on one day (not on day 77, by day 77) share none and are not used: censored at day 259",
    injury: { full_climbing_not_before: "2024-05-20", full_climbing_not_after: "2024-05-20" },
    gives: without("censored", 259),
  },
  {
    name: "not yet on the very day of the date: (90, 91] after day 91 holds no day, the date stands",
    injury: { full_climbing_date: "2024-06-03", full_climbing_not_before: "2024-06-03" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "a week of which the last contact still saw 'not yet': (98, 105] after day 103 is (103, 105], 104",
    injury: {
      full_climbing_date: "2024-06-14",
      full_climbing_precision: "week",
      full_climbing_not_before: "2024-06-15",
      last_contact_date: "2024-06-15",
    },
    gives: reached(104, [103, 105, "week"]),
  },
];

const no = (date: string) => ({ date, full_climbing: "no" }) as const;
const yes = (date: string) => ({ date, full_climbing: "yes" }) as const;

const visits: readonly Worked[] = [
  {
    name: "no on day 42, yes on day 84: (42, 84], floor((43 + 84) / 2) = 63",
    visits: [no("2024-04-15"), yes("2024-05-27")],
    gives: reached(63, [42, 84, "visits"]),
  },
  {
    name: "the last no counts, the first yes counts: no 14, no 42, yes 84, yes 126 give (42, 84]",
    visits: [no("2024-03-18"), no("2024-04-15"), yes("2024-05-27"), yes("2024-07-08")],
    gives: reached(63, [42, 84, "visits"]),
  },
  {
    name: "earliest of (42, 84] is 43",
    visits: [no("2024-04-15"), yes("2024-05-27")],
    asked: { inexactDates: "earliest" },
    gives: reached(43, [42, 84, "visits"]),
  },
  {
    name: "latest of (42, 84] is 84",
    visits: [no("2024-04-15"), yes("2024-05-27")],
    asked: { inexactDates: "latest" },
    gives: reached(84, [42, 84, "visits"]),
  },
  {
    name: "yes at the first visit, day 42, no 'no' before: (-1, 42], floor(42 / 2) = 21",
    visits: [yes("2024-04-15")],
    gives: reached(21, [-1, 42, "visits"]),
  },
  {
    name: "a 'no' after the first 'yes' changes nothing: yes 42, no 84 give (-1, 42]",
    visits: [yes("2024-04-15"), no("2024-05-27")],
    gives: reached(21, [-1, 42, "visits"]),
  },
  {
    name: "unknown and blank say nothing: no 14, unknown 42, blank 63, yes 84 give (14, 84], floor(99 / 2) = 49",
    visits: [
      no("2024-03-18"),
      { date: "2024-04-15", full_climbing: "unknown" },
      { date: "2024-05-06" },
      yes("2024-05-27"),
    ],
    gives: reached(49, [14, 84, "visits"]),
  },
  {
    name: "a date goes before visits: day 91, though visits give (42, 84]",
    injury: { full_climbing_date: "2024-06-03" },
    visits: [no("2024-04-15"), yes("2024-05-27")],
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "a blank bound is filled from visits: by day 105, last no on day 42: (42, 105], floor(148 / 2) = 74",
    injury: { full_climbing_not_after: "2024-06-17" },
    visits: [no("2024-04-15")],
    gives: reached(74, [42, 105, "visits"]),
  },
  {
    name: "not before day 77, yes on day 42 (disbelieved) and on day 84: (77, 84], 81",
    injury: { full_climbing_not_before: "2024-05-20" },
    visits: [yes("2024-04-15"), yes("2024-05-27")],
    gives: reached(81, [77, 84, "visits"]),
  },
  {
    name: "a visit after the last contact that says no is a contact: censored at day 84",
    injury: { last_contact_date: "2024-04-30" },
    visits: [no("2024-05-27")],
    gives: without("censored", 84),
  },
  {
    name: "a visit after the last contact that says nothing of it is none: censored at day 57",
    injury: { last_contact_date: "2024-04-30" },
    visits: [{ date: "2024-05-27", easy_climbing: "yes" }],
    gives: without("censored", 57),
  },
  {
    name: "not before day 42 goes before a 'yes' on day 42: the next 'yes' counts, (42, 84], 63",
    injury: { full_climbing_not_before: "2024-04-15" },
    visits: [yes("2024-04-15"), yes("2024-05-27")],
    gives: reached(63, [42, 84, "visits"]),
  },
  {
    name: "by day 42 goes before a 'no' on day 42: the 'no' of day 14 counts, (14, 42], floor(57 / 2) = 28",
    injury: { full_climbing_not_after: "2024-04-15" },
    visits: [no("2024-03-18"), no("2024-04-15")],
    gives: reached(28, [14, 42, "visits"]),
  },
];

const higher: readonly Worked[] = [
  {
    name: "previous level on day 161 says full by day 161 and no more: (-1, 161], floor(161 / 2) = 80",
    injury: { previous_level_date: "2024-08-12" },
    gives: reached(80, [-1, 161, "visits"]),
  },
  {
    name: "with a 'no' on day 42: (42, 161], floor((43 + 161) / 2) = 102",
    injury: { previous_level_date: "2024-08-12" },
    visits: [no("2024-04-15")],
    gives: reached(102, [42, 161, "visits"]),
  },
  {
    name: "two steps up: previous level on day 161 says easy by day 161, seen 'not easy' on day 14: (14, 161], 88",
    injury: { previous_level_date: "2024-08-12" },
    visits: [{ date: "2024-03-18", easy_climbing: "no" }],
    asked: { milestone: "easy_climbing" },
    gives: reached(88, [14, 161, "visits"]),
  },
  {
    name: "known to the month, August: full by its last day 180: (-1, 180], 90",
    injury: { previous_level_date: "2024-08-12", previous_level_precision: "month" },
    gives: reached(90, [-1, 180, "visits"]),
  },
  {
    name: "a direct 'not yet' on day 168 withdraws it: censored at day 259",
    injury: { previous_level_date: "2024-08-12" },
    visits: [no("2024-08-19")],
    gives: without("censored", 259),
  },
  {
    name: "a lower milestone says nothing of a higher one: easy on day 42, full blank, censored at day 259",
    injury: { easy_climbing_date: "2024-04-15" },
    gives: without("censored", 259),
  },
  {
    name: "the date of a lower milestone is a contact: easy on day 91, last contact day 57, censored at 91",
    injury: { easy_climbing_date: "2024-06-03", last_contact_date: "2024-04-30" },
    gives: without("censored", 91),
  },
];

const roughInjuries: readonly Worked[] = [
  {
    name: "injury to the week, return on day 91: (90 - 3, 91 + 3] = (87, 94], middle 91, known to the week",
    injury: { injury_date_precision: "week", full_climbing_date: "2024-06-03" },
    gives: reached(91, [87, 94, "week"]),
  },
  {
    name: "injury in March: 3 days before and 27 after 03-04 are March, (90 - 27, 91 + 3] = (63, 94], 79, month",
    injury: { injury_date_precision: "month", full_climbing_date: "2024-06-03" },
    gives: reached(79, [63, 94, "month"]),
  },
  {
    name: "both to the week: (87 - 3, 94 + 3] = (84, 97], middle 91",
    injury: {
      injury_date_precision: "week",
      full_climbing_date: "2024-06-03",
      full_climbing_precision: "week",
    },
    gives: reached(91, [84, 97, "week"]),
  },
  {
    name: "injury to the week, visits (42, 84]: (39, 87], 63, still known from visits",
    injury: { injury_date_precision: "week" },
    visits: [no("2024-04-15"), yes("2024-05-27")],
    gives: reached(63, [39, 87, "visits"]),
  },
  {
    name: "injury to the week, censored on day 259: surely not yet on day 256",
    injury: { injury_date_precision: "week" },
    gives: without("censored", 259, 256),
  },
  {
    name: "another clock starts on an exact day: first visit 03-08, return 06-03, 91 - 4 = 87",
    injury: {
      injury_date_precision: "month",
      first_visit_date: "2024-03-08",
      full_climbing_date: "2024-06-03",
    },
    asked: { clock: "first_visit" },
    gives: reached(87, [86, 87, "day"]),
  },
  {
    name: "a return two days before a day 0 known to the week may lie after it: (-1, 1], midpoint 0",
    injury: { injury_date_precision: "week", full_climbing_date: "2024-03-02" },
    gives: reached(0, [-1, 1, "week"]),
  },
  {
    name: "rough day 0 can't turn ends round: return day 91, new rupture day 92, the latest return is 91 + 3 = 94",
    injury: {
      injury_date_precision: "week",
      full_climbing_date: "2024-06-03",
      new_rupture_date: "2024-06-04",
    },
    asked: { inexactDates: "latest" },
    gives: reached(94, [87, 94, "week"]),
  },
  {
    name: "the same before day 0: return on day -2, new rupture on -1, the earliest return is day 0",
    injury: {
      injury_date_precision: "week",
      full_climbing_date: "2024-03-02",
      new_rupture_date: "2024-03-03",
    },
    asked: { inexactDates: "earliest" },
    gives: reached(0, [-1, 1, "week"]),
  },
];

const ends: readonly Worked[] = [
  { name: "nothing but a last contact: censored there, day 259", gives: without("censored", 259) },
  {
    name: "gave up on day 164",
    injury: { gave_up_date: "2024-08-15" },
    gives: without("gave_up", 164),
  },
  {
    name: "gave up, no date: at the last contact, day 259",
    injury: { end_status: "gave_up" },
    gives: without("gave_up", 259),
  },
  {
    name: "gave up, no date, but back on a later day than the last contact: that day is the last contact",
    injury: { end_status: "gave_up", last_contact_date: "2024-04-30", full_climbing_date: "2024-06-03" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "gave up, no date, seen to be back on day 84 after a last contact on day 57: 84 is the last contact",
    injury: { end_status: "gave_up", last_contact_date: "2024-04-30" },
    visits: [no("2024-04-15"), yes("2024-05-27")],
    asked: { inexactDates: "latest" },
    gives: reached(84, [42, 84, "visits"]),
  },
  {
    name: "gave up after the return: the return came first",
    injury: { full_climbing_date: "2024-06-03", gave_up_date: "2024-08-15" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "new rupture on day 181 and gave up on day 164: the earlier",
    injury: { gave_up_date: "2024-08-15", new_rupture_date: "2024-09-01" },
    gives: without("gave_up", 164),
  },
  {
    name: "new rupture and gave up on one day: the cause before its consequence",
    injury: { gave_up_date: "2024-09-01", new_rupture_date: "2024-09-01" },
    gives: without("new_rupture", 181),
  },
  {
    name: "new rupture on the day of the return: the return counts",
    injury: { full_climbing_date: "2024-06-03", new_rupture_date: "2024-06-03" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "new rupture on day 90, return on day 91: the rupture, and the return is not told",
    injury: { full_climbing_date: "2024-06-03", new_rupture_date: "2024-06-02" },
    gives: without("new_rupture", 90),
  },
  {
    name: "new rupture on day 63 inside (42, 84]: the midpoint 63 is the same day, the return counts",
    injury: { new_rupture_date: "2024-05-06" },
    visits: [no("2024-04-15"), yes("2024-05-27")],
    gives: reached(63, [42, 84, "visits"]),
  },
  {
    name: "the same under 'latest': 84 lies after 63, and not yet back is known up to day 42 only",
    injury: { new_rupture_date: "2024-05-06" },
    visits: [no("2024-04-15"), yes("2024-05-27")],
    asked: { inexactDates: "latest" },
    gives: without("new_rupture", 63, 42),
  },
  {
    name: "died: at the last contact",
    injury: { end_status: "died" },
    gives: without("died", 259),
  },
  {
    name: "lost: censored at the last contact",
    injury: { end_status: "lost" },
    gives: without("censored", 259),
  },
  {
    name: "gave up, not asked about: followed on to the return",
    injury: { gave_up_date: "2024-04-15", full_climbing_date: "2024-06-03" },
    asked: { competingEnds: ["died"] },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "new rupture, not asked about: censored at the last contact, day 259",
    injury: { new_rupture_date: "2024-04-15" },
    asked: { competingEnds: [] },
    gives: without("censored", 259),
  },
  {
    name: "ring on day 6, surgery on day 58: converted",
    treatments: [{ start_date: "2024-03-10" }, { treatment: "surgery", start_date: "2024-05-01" }],
    gives: without("surgery", 58),
  },
  {
    name: "surgery first: not a conversion",
    treatments: [{ treatment: "surgery", start_date: "2024-03-10" }, { start_date: "2024-05-01" }],
    gives: without("censored", 259),
  },
  {
    name: "surgery twice: its own revision is no conversion",
    treatments: [
      { treatment: "surgery", start_date: "2024-03-10" },
      { treatment: "surgery", start_date: "2024-05-01" },
    ],
    gives: without("censored", 259),
  },
  {
    name: "surgery and ring on one day: operated from the start",
    treatments: [{ treatment: "surgery" }, { treatment: "ring" }],
    gives: without("censored", 259),
  },
  {
    name: "rest, then surgery: rest is background, so surgery was first",
    treatments: [
      { treatment: "rest", start_date: "2024-03-05" },
      { treatment: "surgery", start_date: "2024-05-01" },
    ],
    gives: without("censored", 259),
  },
  {
    name: "surgery, no treatment of interest: not first treated otherwise",
    treatments: [{ treatment: "surgery", start_date: "2024-05-01" }],
    asked: { treatmentsOfInterest: ["ring", "tape"] },
    gives: without("censored", 259),
  },
  {
    name: "surgery asked about though not of interest: ring on day 6, surgery on day 58",
    treatments: [{ start_date: "2024-03-10" }, { treatment: "surgery", start_date: "2024-05-01" }],
    asked: { treatmentsOfInterest: ["ring", "tape"] },
    gives: without("surgery", 58),
  },
];

const closes: readonly Worked[] = [
  {
    name: "closed on 05-31, returned on 06-03: censored on day 88",
    injury: { full_climbing_date: "2024-06-03" },
    asked: { closedOn: "2024-05-31" },
    gives: without("censored", 88),
  },
  {
    name: "closed on the day of the return: it counts",
    injury: { full_climbing_date: "2024-06-03" },
    asked: { closedOn: "2024-06-03" },
    gives: reached(91, [90, 91, "day"]),
  },
  {
    name: "not on 05-20, back by a contact on 06-17, the day of the close: it counts, (77, 105]",
    injury: { full_climbing_not_before: "2024-05-20", full_climbing_not_after: "2024-06-17" },
    asked: { closedOn: "2024-06-17" },
    gives: reached(91, [77, 105, "visits"]),
  },
  {
    name: "dated before the close to a month that ends after it: (88, 108], floor(197 / 2) = 98",
    injury: { full_climbing_date: "2024-06-15", full_climbing_precision: "month" },
    asked: { closedOn: "2024-06-20" },
    gives: reached(98, [88, 108, "month"]),
  },
  {
    name: "dated after the close to a month that began before it: surely not yet on 05-31 only, day 88",
    injury: { full_climbing_date: "2024-06-25", full_climbing_precision: "month" },
    asked: { closedOn: "2024-06-20" },
    gives: without("censored", 88),
  },
  {
    name: "no on day 42, yes on day 84, closed on day 57: nobody knew after day 42",
    visits: [no("2024-04-15"), yes("2024-05-27")],
    asked: { closedOn: "2024-04-30" },
    gives: without("censored", 42),
  },
  {
    name: "a new rupture after the close did not happen yet: censored on day 88",
    injury: { new_rupture_date: "2024-09-01" },
    asked: { closedOn: "2024-05-31" },
    gives: without("censored", 88),
  },
  {
    name: "died at a last contact after the close: censored on day 88",
    injury: { end_status: "died" },
    asked: { closedOn: "2024-05-31" },
    gives: without("censored", 88),
  },
  {
    name: "surgery after the close did not happen yet: censored on day 57",
    treatments: [{ start_date: "2024-03-10" }, { treatment: "surgery", start_date: "2024-05-01" }],
    asked: { closedOn: "2024-04-30" },
    gives: without("censored", 57),
  },
  {
    name: "a close after the last contact cuts nothing: censored on day 259",
    asked: { closedOn: "2025-12-31" },
    gives: without("censored", 259),
  },
  {
    name: "dated before the close, but 'not yet' was seen after it: (104, 105], closed on day 103, censored there",
    injury: {
      full_climbing_date: "2024-06-14",
      full_climbing_precision: "week",
      full_climbing_not_before: "2024-06-16",
    },
    asked: { closedOn: "2024-06-15" },
    gives: without("censored", 103),
  },
];

describe.each([
  { of: "a dated milestone", cases: dates },
  { of: "bounds", cases: bounds },
  { of: "visits", cases: visits },
  { of: "a higher milestone", cases: higher },
  { of: "a rough day of injury", cases: roughInjuries },
  { of: "ends", cases: ends },
  { of: "a close of the data", cases: closes },
])("outcome by hand, from $of", ({ cases }) => {
  it.each(cases)("$name", (worked) => {
    expect(derived(worked)).toMatchObject(worked.gives);
  });
});
