import type { Warning } from "../study/results.js";
import { plainNumber, pValue, share } from "./numbers.js";
import { sectionName } from "./sections.js";
import { inexactDateRules } from "./terms.js";
import { days } from "./times.js";
import { curveOf, type Facts, factsOf, ofAll } from "./warning-facts.js";

/** A warning in words: what was found, what it means for the reader, and on what it rests. */
export interface WarningWords {
  readonly heading: string;
  readonly meaning: string;
  /** From where on the warning is given, with the origin of that; null where one occurrence is enough. */
  readonly threshold: string | null;
  /** Whether it can change the answer, or only says how far the answer reaches. */
  readonly weight: "heavy" | "light";
  /** What was found in these data; empty where the warning is a principle only. */
  readonly found: (facts: Facts) => string;
}

const noFacts = () => "";

/** Every warning that a report can give. `study/warnings.ts` decides when. */
export const warningWords: Readonly<Record<Warning["code"], WarningWords>> = {
  "not-randomised": {
    heading: "Treatments were chosen, not allocated at random",
    meaning:
      "Groups can differ in more than their treatment. A difference is associated with the group; these data cannot show what caused it.",
    threshold: null,
    weight: "heavy",
    found: noFacts,
  },
  "definitions-differ": {
    heading: "Sites mean different things by the return",
    meaning:
      "A difference between sites, or between groups that are seen at different sites, can then come from the definition alone. Each definition has a curve of its own; they are counted together only where the study file says that they may be (definitions: may_differ).",
    threshold:
      "definitions that differ in more than letter case, spaces and punctuation; a site without one counts as not stated",
    weight: "heavy",
    found: (facts) =>
      `${facts.words("definitions")} (${facts.words("pooled") === "yes" ? "counted together, as the study file says" : "not counted together"})`,
  },
  "first-visits-late": {
    heading: "First visits came late, and everybody counts from the injury",
    meaning:
      "Whoever was back before coming to the site is seldom in the data, so the days before the first visit hold too few returns, and shares back are too low. With entry: first_visit in the study file an injury counts only from its first visit on; choose it where those who were back could not come into the data, not where everybody did and the worst injuries were seen soonest.",
    threshold: "an upper quartile of 14 days or more from the injury to the first visit (our choice)",
    weight: "heavy",
    found: (facts) =>
      facts.has("median_days", "upper_quartile_days")
        ? `first visit after ${days(facts.number("median_days"))} (median), ${days(facts.number("upper_quartile_days"))} (upper quartile)` +
          (facts.has("n", "of") ? `; ${facts.words("n")} of ${facts.words("of")} were back by then` : "")
        : "",
  },
  "overlap-lacking": {
    heading: "Some strata cannot be compared",
    meaning:
      "Where a stratum holds too few injuries of either group, or is followed too briefly, like cannot be compared with like. Those strata are left out of the adjusted differences, which then speak only for the strata that remain.",
    threshold: "the smallest group of the study file",
    weight: "heavy",
    found: (facts) =>
      facts.has("compared", "reference", "strata")
        ? `${facts.words("compared")} compared with ${facts.words("reference")}: left out ${facts.words("strata")}` +
          (facts.has("left_out", "used")
            ? `, with ${facts.words("left_out")} injuries; ${facts.words("used")} are used`
            : "")
        : "",
  },
  "horizon-beyond-follow-up": {
    heading: "Follow-up ends before the horizon",
    meaning:
      "In at least one group nobody was followed as far as the horizon, so a mean time up to it is not given there.",
    threshold: null,
    weight: "heavy",
    found: (facts) =>
      facts.has("last_day", "horizon_days")
        ? `${curveOf(facts)}: last observed after ${days(facts.number("last_day"))}, horizon ${days(facts.number("horizon_days"))}`
        : curveOf(facts),
  },
  "few-events": {
    heading: "Few returns were observed",
    meaning:
      "With few returns an estimate can change a great deal when one injury is added. Read the interval before the estimate.",
    threshold: "a compared group with fewer than 10 returns (common practice, no source)",
    weight: "heavy",
    found: (facts) =>
      facts.has("events", "n")
        ? `${facts.words("group")}: returns observed in ${facts.words("events")} of ${facts.words("n")}`
        : facts.words("group"),
  },
  "rows-set-aside": {
    heading: "Some injuries are not in these numbers",
    meaning: `Rows that could not be read with certainty were set aside. If they differ from the rest, for instance because the more severe injuries have the longer notes, every number is biased. The section ${sectionName("counted")} says which rows and why.`,
    threshold: null,
    weight: "heavy",
    found: ofAll("rows of injuries"),
  },
  "queries-open": {
    heading: "Data queries are open",
    meaning: `The site has been asked about values that are used as they are. Where one of them is wrong, the figures change. The section ${sectionName("queries")} says which rows are meant and how to correct them.`,
    threshold: null,
    weight: "light",
    found: (facts) =>
      facts.has("n", "of", "queries")
        ? `${facts.words("queries")} open queries about ${facts.words("at_least") === "yes" ? "at least " : ""}${facts.words("n")} of ${facts.words("of")} injuries`
        : "",
  },
  "small-counts": {
    heading: "Small groups",
    meaning:
      "Intervals of small groups are wide and rest on approximations; a single person may also be recognisable. Consider this before passing the report on.",
    threshold: "the smallest group of the study file",
    weight: "heavy",
    found: (facts) => (facts.has("below") ? `a group with fewer than ${facts.words("below")} injuries` : ""),
  },
  "completeness-low": {
    heading: "Follow-up is incomplete",
    meaning:
      "Part of the time that could have been observed was not. If those who stayed away returned sooner or later than the others, the curves are biased in that direction.",
    threshold: "less than 90 % of the possible time (common practice, no source)",
    weight: "heavy",
    found: (facts) =>
      facts.has("share", "horizon_days")
        ? `${share(facts.number("share"))} of the possible time up to ${days(facts.number("horizon_days"))} was observed`
        : "",
  },
  "lost-unequally": {
    heading: "More were lost to follow-up in one group than in another",
    meaning:
      "When those who were lost returned is not known. If they returned sooner or later than those who stayed, the groups are biased by different amounts, and part of a difference between them may come from that alone.",
    threshold:
      "shares lost that lie 10 percentage points apart or more (common practice, no source), with p below 0.05 by an exact test",
    weight: "heavy",
    found: (facts) =>
      facts.has("group", "lost", "n", "share", "other", "other_lost", "other_n", "other_share")
        ? `${facts.words("group")}: ${facts.words("lost")} of ${facts.words("n")} lost (${share(facts.number("share"))}); ${facts.words("other")}: ${facts.words("other_lost")} of ${facts.words("other_n")} (${share(facts.number("other_share"))})`
        : facts.words("group"),
  },
  "proportionality-doubtful": {
    heading: "The ratio of the rates of return may change over time",
    meaning:
      "If it does, one hazard ratio averages over a changing ratio. Read the shares back at the landmarks and the restricted mean times instead.",
    threshold: "p below 0.05 in the test of proportional hazards",
    weight: "heavy",
    found: (facts) =>
      facts.has("p") ? `${facts.words("group")}: p ${pValue(facts.number("p"))}` : facts.words("group"),
  },
  "curve-falls-early": {
    heading: "A curve reaches its end while hardly anybody is at risk",
    meaning:
      "With delayed entry few injuries are at risk at first; if all of those return, the curve ends there, and later estimates of the group mean little.",
    threshold: null,
    weight: "heavy",
    found: curveOf,
  },
  "competing-ends-present": {
    heading: "Some ended in another way than with a return",
    meaning:
      "After such a competing end no return can be seen. What a share back makes of it stands beneath each table of shares, and the share that came to each such end is given beside it.",
    threshold: null,
    weight: "light",
    found: ofAll("injuries"),
  },
  "delayed-entry-by-treatment": {
    heading: "Counted only from the start of the treatment",
    meaning:
      "Days before a treatment began cannot count for it. Each compared injury is at risk from the start of its first treatment on; injuries that had returned before that are not in the comparison.",
    threshold: null,
    weight: "light",
    found: noFacts,
  },
  "treatment-starts-assumed": {
    heading: "Treatments without a start are counted from the injury",
    meaning:
      "The study file takes the day of the injury for the start of a treatment whose start was not recorded. The time between the injury and the true start is then counted in favour of that treatment: whoever waited for it had, by that, not yet returned.",
    threshold: null,
    weight: "heavy",
    found: ofAll("injuries"),
  },
  "inexact-dates": {
    heading: "Some returns are not known to the day",
    meaning:
      "A return known to the week, to the month or only between two visits is placed on one day by the rule of the study file. The true curve may lie some days to either side. Intervals allow for chance only, not for rounding: the more injuries, the more often they miss the true value because of it.",
    threshold: null,
    weight: "light",
    found: (facts) => {
      const rule = (inexactDateRules as Readonly<Record<string, string>>)[facts.words("rule")];
      return (
        ofAll("returns")(facts) + (facts.has("rule") ? `, each placed on ${rule ?? facts.words("rule")}` : "")
      );
    },
  },
  "estimated-from-spans": {
    heading: "Shares and times are estimated by a model",
    meaning: `Too many returns are known only between two days, mostly between two visits, for each to be placed on one. Shares, times and differences come from an accelerated model, whose law is chosen by AIC; where the true times follow no such law they may be off by more than their intervals say. The tables give beside them what the spans alone say. Log-rank tests, hazard ratios and differences over time need days, and are not given; other ends than a return, and what came after it, are still counted with each return on one day. The section ${sectionName("follow-up")} says how exactly returns are known.`,
    threshold: "the rule in that section, or the study file",
    weight: "light",
    found: (facts) => {
      const counts = ofAll("returns")(facts);
      return counts === "" ? "" : `${counts} are not known to the day`;
    },
  },
  "unlike-schedules": {
    heading: "The groups were seen on unlike schedules",
    meaning:
      "A return that is known only between two visits is seen the later, the further the visits lie apart. Placed on a day in between, groups that were seen on unlike days can differ although nothing differs. Figures estimated from the spans allow for it as far as the law of their model holds; figures with each return on one day do not.",
    threshold:
      "p below 0.05 in a rank test of the widths of spans, and means that lie more than 3 days a return apart (measured by this project)",
    weight: "heavy",
    found: (facts) =>
      facts.has("group", "wide_days", "other", "other_wide_days", "p")
        ? `wide spans come to ${plainNumber(facts.number("wide_days"), 1)} days a return with ${facts.words("group")} and ${plainNumber(facts.number("other_wide_days"), 1)} with ${facts.words("other")} (p ${pValue(facts.number("p"))}); ${facts.words("path") === "spans" ? "figures are estimated from the spans" : "each return is placed on one day"}`
        : facts.words("group"),
  },
  "heaped-dates": {
    heading: "Dates of return heap on whole weeks",
    meaning:
      "More returns fall on whole weeks than chance would put there: dates were probably rounded, and steps of the curve at whole weeks are partly made by that.",
    threshold:
      "20 returns or more, of which the share on whole weeks exceeds one in seven by three standard errors (common practice, no source)",
    weight: "light",
    found: (facts) => {
      const counts = ofAll("returns dated to the day")(facts);
      return counts === "" ? "" : `${counts} fall on a whole week; one in seven would by chance`;
    },
  },
  "several-injuries-a-person": {
    heading: "Some people have several injuries",
    meaning:
      "Injuries of one person are alike. Intervals and log-rank tests allow for it, by methods suited to few people; the test of proportional hazards takes the injuries as independent. Notes beneath the tables say where an interval may be too narrow.",
    threshold: null,
    weight: "light",
    found: (facts) =>
      facts.has("injuries", "persons")
        ? `${facts.words("injuries")} injuries in ${facts.words("persons")} people`
        : "",
  },
  "person-ids-at-several-sites": {
    heading: "The same person id occurs at several sites",
    meaning:
      "The study file does not say whether that is one person, so each such id is counted as a different person at each site. If it is one person, injuries that are alike are counted as independent, and intervals are, as a rule, too narrow. Write person_ids: shared under data in the study file where sites share their ids, and per_site where each numbers its own people.",
    threshold: null,
    weight: "heavy",
    found: (facts) =>
      facts.has("ids", "injuries", "persons")
        ? `${facts.words("ids")} ${facts.words("ids") === "1" ? "id" : "ids"} with ${facts.words("injuries")} injuries, counted as ${facts.words("persons")} people`
        : "",
  },
  "covariates-missing": {
    heading: "A field to adjust for is not always recorded",
    meaning: `Such injuries cannot be compared like with like; the section ${sectionName("effects")} says how many are concerned.`,
    threshold: null,
    weight: "light",
    found: (facts) =>
      facts.has("field") ? `${facts.words("field")}: not recorded in ${ofAll("injuries")(facts)}` : "",
  },
  "distances-missing": {
    heading: "Distances are not recorded for everybody",
    meaning:
      "Those with two readings may differ from those without. The distances speak for the injuries that were measured.",
    threshold: null,
    weight: "light",
    found: (facts) => {
      const counts = ofAll("injuries")(facts);
      return counts === "" ? "" : `${counts} lack the first or the last reading`;
    },
  },
  "imbalance-not-held": {
    heading: "The groups differ in what is not held equal",
    meaning:
      "Part of a difference between the groups may come from this and not from the treatment. It can be adjusted for where the study file names it.",
    threshold:
      "a standardised difference beyond 0.1 (common practice, no source); the three largest of each group",
    weight: "heavy",
    found: (facts) =>
      facts.has("compared", "reference", "field", "size")
        ? `${facts.words("field")}, ${facts.words("compared")} compared with ${facts.words("reference")}: ${plainNumber(facts.number("size"), 2)} apart`
        : "",
  },
  "numeric-adjustment-in-ratio-only": {
    heading: "Only the hazard ratio is adjusted for measured fields",
    meaning:
      "Differences in shares and in mean times are taken within strata, and a number such as age makes no strata. They are not adjusted for it.",
    threshold: null,
    weight: "light",
    found: (facts) => facts.words("fields"),
  },
};

/** What was found in these data, for one warning of a study that compares by a field; empty where the warning is only a principle. */
export const sayFacts = ({ code, facts }: Pick<Warning, "code" | "facts">, by: string): string =>
  warningWords[code].found(factsOf(facts, by));
