import type { Warning } from "../../study/results.js";

/** A warning in words: what was seen, and what it means for the reader. */
export interface WarningWords {
  readonly heading: string;
  readonly meaning: string;
  /** Whether it can turn the answer round, or only says how far it reaches. */
  readonly weight: "heavy" | "light";
}

export const warningWords: Readonly<Record<Warning["code"], WarningWords>> = {
  "not-randomised": {
    heading: "Treatments were chosen, not allotted by chance",
    meaning:
      "Groups can differ in more than their treatment. A difference is associated with the group; these data cannot show what caused it.",
    weight: "heavy",
  },
  "overlap-lacking": {
    heading: "Some strata cannot be compared",
    meaning:
      "Where a stratum holds too few injuries of either group, or is followed too briefly, like cannot be compared with like. Those strata are left out of the adjusted differences, which then speak only for the strata that remain.",
    weight: "heavy",
  },
  "horizon-beyond-follow-up": {
    heading: "Follow-up ends before the horizon",
    meaning:
      "In at least one group nobody was followed as far as the horizon, so a mean time up to it is not given there.",
    weight: "heavy",
  },
  "few-events": {
    heading: "Few returns were seen",
    meaning:
      "With few returns an estimate can move a long way when one injury is added. Read the interval before the figure.",
    weight: "heavy",
  },
  "rows-set-aside": {
    heading: "Some injuries are not in these numbers",
    meaning:
      "Rows that could not be read with certainty were set aside. If they differ from the rest, for instance because the worse injuries have the longer notes, every figure is off. Section 3 says which rows and why.",
    weight: "heavy",
  },
  "small-counts": {
    heading: "Small groups",
    meaning:
      "Intervals of small groups are wide and rest on approximations; a single person may also be recognisable. Think before passing this report on.",
    weight: "heavy",
  },
  "completeness-low": {
    heading: "Follow-up is incomplete",
    meaning:
      "Part of the time that could have been observed was not. If those who stayed away returned sooner or later than the others, the curves are off in that direction.",
    weight: "heavy",
  },
  "lost-unequally": {
    heading: "More were lost to follow-up in one group than in another",
    meaning:
      "Nobody knows when those who were lost came back. If they came back sooner or later than those who stayed, the groups are off by different amounts, and part of a difference between them may come from that alone. Shares that lie 10 percentage points apart or more are told here; where that line is drawn is common practice, no source.",
    weight: "heavy",
  },
  "proportionality-doubtful": {
    heading: "The ratio of the rates of return changes over time",
    meaning:
      "One hazard ratio then averages over a changing difference. Rather read the shares back at the landmarks and the restricted mean times.",
    weight: "heavy",
  },
  "curve-falls-early": {
    heading: "A curve reaches its end while hardly anybody is at risk",
    meaning:
      "With delayed entry few injuries are at risk at first; if all of those return, the curve ends there and later figures of the group mean little.",
    weight: "heavy",
  },
  "competing-ends-present": {
    heading: "Some ended in another way than with a return",
    meaning:
      "The curves take such an end as the end of follow-up. The share back counting competing ends, shown beside them, counts these injuries as not back and is never the larger of the two.",
    weight: "light",
  },
  "delayed-entry-by-treatment": {
    heading: "Counted only from the start of the treatment",
    meaning:
      "Days before a treatment began cannot count for it. Each compared injury is at risk from the start of its first treatment on; whoever was back before that is not in the comparison.",
    weight: "light",
  },
  "inexact-dates": {
    heading: "Some returns are not known to the day",
    meaning:
      "A return known to the week, to the month or only between two visits is placed on one day by the rule of the study file. The true curve may lie some days to either side. Intervals know of chance only, not of rounding: the more injuries, the more often they miss because of it.",
    weight: "light",
  },
  "heaped-dates": {
    heading: "Returns heap on whole weeks",
    meaning:
      "More returns lie on whole weeks than chance would put there: dates were probably rounded, and steps of the curve at whole weeks are partly made by that.",
    weight: "light",
  },
  "several-injuries-a-person": {
    heading: "Some people have several injuries here",
    meaning:
      "Injuries of one person are alike. Intervals and log-rank tests allow for it, by methods meant for few people; the test of proportional hazards takes each injury on its own. Notes beneath the tables say where simulated cohorts found an interval short.",
    weight: "light",
  },
  "covariates-missing": {
    heading: "A field to be held equal is not always recorded",
    meaning:
      "Such injuries cannot be compared like with like; the effects table says how many are concerned.",
    weight: "light",
  },
  "distances-missing": {
    heading: "Distances are not recorded for everybody",
    meaning:
      "Those with two readings may not be like those without. The distances speak for the injuries that were measured.",
    weight: "light",
  },
  "numeric-adjustment-in-ratio-only": {
    heading: "Measured fields are held equal in the hazard ratio only",
    meaning:
      "Differences in share and in mean time are taken within strata, and a number such as age makes none. They do not hold it equal.",
    weight: "light",
  },
};
