import { counted } from "../../schema/counted.js";
import type { Results } from "../../study/results.js";
import { intervalName, intervalWords, valueWords } from "../estimates.js";
import { comparisonName } from "../measures.js";
import { pValue, ratio, rounded } from "../numbers.js";
import { capital, listed } from "../phrases.js";
import { reasonWords } from "../reasons.js";
import { fieldWords, groupName } from "../terms.js";

type Frailty = NonNullable<Results["sites"]>["frailty"][number];

/** How many sites there are, and that groups are compared within each. */
export function sitesOpening({ sites, plan }: Results): readonly string[] {
  if (sites === null) return [];
  const { answers } = sites;
  const held = plan.compare.adjust_for.filter((field) => field !== "site_id");
  const within = `within each site${held.length === 0 ? "" : ` and ${listed(fieldWords(held))}`}`;
  return [
    `The injuries are of ${counted(answers.length, "site", "sites")}.`,
    ...(answers.length > 1 && plan.compare.by !== "site_id"
      ? [
          `Adjusted comparisons set the groups side by side ${within}, so that a site is compared with itself only.`,
        ]
      : []),
    ...(answers.length > 1 && answers.length < 5 ? [fewSites(answers.length)] : []),
  ];
}

/** What few sites cannot tell. Five is common practice, no source. */
const fewSites = (n: number): string =>
  `${n} sites show how their own people fared; they say next to nothing about how much further sites would differ.`;

/** The regression in which the injuries of a site share a frailty, in words. */
export function frailtySentences(
  { hazard_ratio, variance, no_frailty, held_equal, sites, n, events, persons, ...groups }: Frailty,
  { compare, confidence_level }: Results["plan"],
): string {
  const named = (label: string) => groupName(label, compare.by);
  const name = comparisonName(named(groups.compared), named(groups.reference));
  if (hazard_ratio.value === null)
    return `${capital(name)}: no hazard ratio with a frailty of the site (${reasonWords(hazard_ratio.reason)}).`;
  const held = held_equal.length === 0 ? "" : `, ${listed(fieldWords(held_equal))} held equal`;
  const spread =
    variance.value === null
      ? `the variance between sites cannot be estimated (${reasonWords(variance.reason)})`
      : `variance of the frailty ${rounded(variance.value, { decimals: 3 })}${variance.lower === null || variance.upper === null ? "" : ` (${intervalName(confidence_level)} ${rounded(variance.lower, { decimals: 3 })} to ${rounded(variance.upper, { decimals: 3 })})`}${no_frailty.p === null ? "" : `, test that it is 0: p ${pValue(no_frailty.p)}`}`;
  return `${capital(name)}${held}: hazard ratio ${valueWords(hazard_ratio, "ratio")} (${intervalName(confidence_level)} ${intervalWords(hazard_ratio, "ratio")}); ${spread}; ${n} injuries of ${persons} people at ${counted(sites, "site", "sites")}, ${events} returns.`;
}

/** Rates of return of the sites relative to the mean site. */
export const ratesWords = ({ rates }: Frailty): string =>
  rates.map(({ site, rate }) => `${site} ${rate === null ? reasonWords(null) : ratio(rate)}`).join(", ");
