import { counted } from "../../schema/counted.js";
import { figureCaution } from "../cautions.js";
import { rankOf } from "../counts.js";
import { intervalName, shortIntervalName } from "../estimates.js";
import { share } from "../numbers.js";
import { fewSitesWords } from "../pooling/few-sites.js";
import type { LimitsShown, PooledShown, SiteAnswer } from "../pooling/pooled-shown.js";
import { digitsOf, extraDecimals, limits } from "../units.js";
import type { FigureText } from "./figure-text.js";

export const siteColumn = "site";
export const injuriesColumn = "injuries";
export const weightColumn = "weight";
export const estimateColumn = ({ level }: PooledShown): string => `estimate (${shortIntervalName(level)})`;
export const allSitesName = "pooled answer";
export const furtherSiteName = "a further site";

/** The site with most injuries first; those whose number is left out after those that are told. */
export const inOrder = (sites: readonly SiteAnswer[]): readonly SiteAnswer[] =>
  [...sites].sort(
    (a, b) => rankOf(b.injuries) - rankOf(a.injuries) || (a.site < b.site ? -1 : Number(a.site > b.site)),
  );

/** The value and its interval in a few characters, or why there is none. */
export function answerWords(
  { estimate, lower, upper, reason }: Pick<SiteAnswer, "estimate" | "lower" | "upper" | "reason">,
  { unit }: PooledShown,
): string {
  if (estimate === null) return reason ?? "no estimate";
  const digits = digitsOf(estimate, { unit, extra: extraDecimals([estimate], unit) });
  if (lower === null || upper === null) return `${digits} (${reason ?? "no interval"})`;
  return `${digits} (${limits({ lower, upper }, unit)})`;
}

/** The limits alone, or why there are none. */
export const limitsWords = ({ lower, upper, reason }: LimitsShown, { unit }: PooledShown): string =>
  lower === null || upper === null ? (reason ?? "not available") : limits({ lower, upper }, unit);

/** A weight in per cent; a site that has a part, however small, is not said to have none. */
export function weightWords(weight: number): string {
  if (weight === 0) return "none";
  return weight < 0.005 ? `<${"\u00a0"}1${"\u00a0"}%` : share(weight);
}

const peopleWords = ({ pooled: { injuries, people } }: PooledShown): string =>
  [
    typeof injuries === "number" ? counted(injuries, "injury", "injuries") : "number of injuries left out",
    ...(typeof people === "number" ? [`${people} ${people === 1 ? "person" : "people"}`] : []),
  ].join(", ");

function siteSentence(site: SiteAnswer, shown: PooledShown): string {
  const n = typeof site.injuries === "number" ? `n = ${site.injuries}` : "n left out";
  return `${site.site}: ${n}, ${answerWords(site, shown)}, weight ${weightWords(site.weight)}.`;
}

/** Title, subtitle, text alternative and notes of the figure of sites and their pooled answer. */
export function pooledSitesText(shown: PooledShown): FigureText {
  const { pooled, level, sites } = shown;
  const answer = { ...pooled.interval, estimate: pooled.estimate };
  return {
    id: `sites-${shown.id}`,
    title: shown.title,
    subtitle: `${counted(pooled.sites, "site", "sites")}, ${peopleWords(shown)}; ${pooled.method}`,
    description: [
      `The ${shown.axisTitle}, at each site and pooled, with ${intervalName(level)}s.`,
      `Pooled answer: ${answerWords(answer, shown)}.`,
      `Expected at a further site of the same kind: ${limitsWords(pooled.prediction, shown)}.`,
      ...inOrder(sites).map((site) => siteSentence(site, shown)),
    ].join(" "),
    notes: [
      `Disc: a site's own answer, its area the weight in the pooled one; line: ${intervalName(level)} (CI).`,
      ...(pooled.interval.lower === null ? [] : ["Dark band: the pooled answer with its interval."]),
      ...(pooled.prediction.lower === null
        ? []
        : ["Pale band: where the true answer of a further site of the same kind is expected."]),
      ...fewSitesWords(pooled.sites),
      figureCaution,
    ],
    synthetic: shown.synthetic,
    individual: false,
  };
}
