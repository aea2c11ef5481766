import { labelOf } from "../../schema/labels.js";
import type { Warning } from "../../study/results.js";
import { days, plainNumber, pValue, share } from "../format.js";
import { curveName, groupName } from "./terms.js";

/** The facts of one warning by name; a fact that is not there is left out of the sentence with its words. */
interface Facts {
  readonly has: (...names: readonly string[]) => boolean;
  readonly words: (name: string) => string;
  readonly number: (name: string) => number;
  /** The field that the study compares by. */
  readonly by: string;
}

/** Facts that name a group of the field that the study compares by. */
const groups: ReadonlySet<string> = new Set(["group", "other", "compared", "reference"]);

const factsOf = (facts: Warning["facts"], by: string): Facts => ({
  has: (...names) => names.every((name) => facts[name] !== undefined),
  words: (name) => {
    const value = facts[name] ?? "";
    if (typeof value === "number") return plainNumber(value, 3);
    if (name === "strata") return value;
    return groups.has(name) ? groupName(value, by) : labelOf(value);
  },
  number: (name) => Number(facts[name]),
  by,
});

const ofAll = (what: string) => (facts: Facts) =>
  facts.has("n", "of") ? `${facts.words("n")} of ${facts.words("of")} ${what}` : "";

const curve = (facts: Facts): string => {
  const family = facts.words("family");
  const group = facts.words("group");
  return family === "grade" ? curveName({ family, label: group }, facts.by) : group;
};

const sentences: Readonly<Record<Warning["code"], (facts: Facts) => string>> = {
  "not-randomised": () => "",
  "overlap-lacking": (facts) =>
    facts.has("compared", "reference", "strata")
      ? `${facts.words("compared")} against ${facts.words("reference")}: left out ${facts.words("strata")}` +
        (facts.has("left_out", "used")
          ? `, with ${facts.words("left_out")} injuries; ${facts.words("used")} are used`
          : "")
      : "",
  "horizon-beyond-follow-up": (facts) =>
    facts.has("last_day", "horizon_days")
      ? `${curve(facts)}: last seen after ${days(facts.number("last_day"))}, horizon ${days(facts.number("horizon_days"))}`
      : curve(facts),
  "few-events": (facts) =>
    facts.has("events", "n")
      ? `${facts.words("group")}: returns seen in ${facts.words("events")} of ${facts.words("n")}`
      : facts.words("group"),
  "rows-set-aside": ofAll("rows of injuries"),
  "small-counts": (facts) =>
    facts.has("below") ? `a group with fewer than ${facts.words("below")} injuries` : "",
  "completeness-low": (facts) =>
    facts.has("share", "horizon_days")
      ? `${share(facts.number("share"))} of the possible time up to ${days(facts.number("horizon_days"))} was observed`
      : "",
  "lost-unequally": (facts) =>
    facts.has("group", "lost", "n", "share", "other", "other_lost", "other_n", "other_share")
      ? `${facts.words("group")}: ${facts.words("lost")} of ${facts.words("n")} lost (${share(facts.number("share"))}); ${facts.words("other")}: ${facts.words("other_lost")} of ${facts.words("other_n")} (${share(facts.number("other_share"))})`
      : facts.words("group"),
  "proportionality-doubtful": (facts) =>
    facts.has("p") ? `${facts.words("group")}: p ${pValue(facts.number("p"))}` : facts.words("group"),
  "curve-falls-early": curve,
  "competing-ends-present": ofAll("injuries"),
  "delayed-entry-by-treatment": () => "",
  "inexact-dates": (facts) =>
    ofAll("returns")(facts) + (facts.has("rule") ? `; rule: ${facts.words("rule")}` : ""),
  "heaped-dates": (facts) => {
    const counts = ofAll("returns dated to the day")(facts);
    return counts === "" ? "" : `${counts}; one in seven would by chance`;
  },
  "several-injuries-a-person": (facts) =>
    facts.has("injuries", "persons")
      ? `${facts.words("injuries")} injuries of ${facts.words("persons")} people`
      : "",
  "covariates-missing": (facts) =>
    facts.has("field") ? `${facts.words("field")}: not recorded in ${ofAll("injuries")(facts)}` : "",
  "distances-missing": (facts) => {
    const counts = ofAll("injuries")(facts);
    return counts === "" ? "" : `${counts} lack the first or the last reading`;
  },
  "numeric-adjustment-in-ratio-only": (facts) => facts.words("fields"),
};

/** What was seen in these data, for one warning of a study that compares by a field; empty where the warning is only a principle. */
export const sayFacts = ({ code, facts }: Warning, by: string): string => sentences[code](factsOf(facts, by));
