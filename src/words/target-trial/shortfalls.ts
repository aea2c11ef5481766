import { labelOf } from "../../schema/labels.js";
import type { ReasonCode, Shortfall } from "../../study/results.js";
import { groupWords } from "../group-phrases.js";
import { listed } from "../phrases.js";
import { reasonWords } from "../reasons.js";
import { competingVerb, exclusionWords, outsideGroups } from "../terms.js";
import { byDay, days } from "../times.js";
import { codesIn, type TrialFacts, treatmentsIn, trialFacts } from "./facts.js";

const excludedFor = (code: string): string =>
  exclusionWords[code as keyof typeof exclusionWords] ?? labelOf(code);
const among = (label: string): string => groupWords({ by: "first_treatment", label }).among;

/** Where the data fall short, as sentences; each is said only where it was found. */
const sentences: Readonly<Record<Shortfall["code"], (facts: TrialFacts) => string>> = {
  "set-aside": ({ counts, verb }) =>
    `${counts} rows of injuries ${verb("was", "were")} set aside; whether the criteria were met is not known.`,
  "not-known-to-be-eligible": ({ injuries, parts }) =>
    `${injuries} may have met the criteria or not: ${codesIn(parts("why"), excludedFor)}.`,
  "cannot-answer": ({ injuries, parts }) =>
    `${injuries} cannot answer the question: ${codesIn(parts("why"), excludedFor)}.`,
  "had-another-before": ({ n, counts, among: group, parts }) =>
    `${counts} ${group()} had another treatment before it: ${treatmentsIn(parts("what"), { of: n })}.`,
  "before-not-known": ({ counts, among: group }) =>
    `In ${counts} ${group()} another treatment has no start, so it may have come before.`,
  "not-placed": ({ injuries, parts }) =>
    `${injuries} could be put into no group: ${codesIn(parts("why"), (code) => outsideGroups(code, "first_treatment"))}.`,
  "began-later": ({ counts, parts }) =>
    `The treatment began after day 0 in ${counts}: ${listed(
      parts("days").map(
        ([label, median, longest]) =>
          `${among(label)} after a median of ${days(Number(median))}, at the latest after ${days(Number(longest))}`,
      ),
    )}. A trial would begin all on day 0; here the days before count for neither group.`,
  "back-before-treatment": ({ injuries, verb }) =>
    `${injuries} had returned before a treatment began and ${verb("is", "are")} in no group; a trial would have counted ${verb("it", "them")} in one.`,
  "start-assumed": ({ injuries }) =>
    `In ${injuries} the start of the treatment is not recorded and is taken to be the day of the injury.`,
  "adjusted-only-for": ({ parts }) =>
    `Chosen, not drawn at random; the adjusted comparison allows for ${listed(parts("fields").map(([field]) => labelOf(field)))} alone.`,
  "not-adjusted": () => "Chosen, not drawn at random, and nothing is adjusted for.",
  "unlike-at-the-start": ({ among: group, parts, text }) => {
    const more = Number(text("more"));
    const told = parts("fields").map(([field, size]) => `${labelOf(field)} (${size})`);
    return `Injuries ${group()} and ${group("reference")} differ in what is not adjusted for (standardised difference in brackets): ${listed([...told, ...(more > 0 ? [`${more} more`] : [])])}.`;
  },
  "dated-roughly": ({ counts, text, verb }) =>
    `${counts} returns ${verb("is", "are")} not known to the day; ${text("path") === "spans" ? "each stays between the days between which it lies" : "each is placed on one"}.`,
  "definitions-differ": ({ n, text }) =>
    `The sites mean ${n} different things by the return${text("pooled") === "yes" ? ", and are counted together" : "; each is answered by itself"}.`,
  lost: ({ counts, among: group, text, verb }) =>
    `${counts} ${group()} ${verb("was", "were")} lost to follow-up before ${byDay(Number(text("horizon_days")))}.`,
  "other-ends": ({ counts, parts }) =>
    `${counts} analysed injuries came to another end: ${listed(parts("what").map(([code, n]) => `${n} ${competingVerb(code)}`))}.`,
  "went-on": ({ n, counts, among: group, parts }) =>
    `In ${counts} ${group()} another treatment was begun before the return (${treatmentsIn(parts("what"), { of: n })}); each stays in its group.`,
  "no-figure": ({ among: group, text }) =>
    `No difference can be given ${group("compared")} and ${group("reference")}: ${reasonWords(text("reason") as ReasonCode)}.`,
  "strata-left-out": ({ injuries, parts, verb }) =>
    `${injuries} ${verb("has", "have")} too few alike in the other group and ${verb("is", "are")} left out of the adjusted comparison: ${listed(parts("what").map(([stratum]) => stratum))}.`,
  "field-not-recorded": ({ injuries, parts, verb }) =>
    `${injuries} ${verb("is", "are")} left out of the adjusted comparison, since a field is not recorded: ${listed(parts("what").map(([field]) => labelOf(field)))}.`,
};

export const shortfallWords = (shortfall: Shortfall): string =>
  sentences[shortfall.code](trialFacts(shortfall));
