import type { PooledAnswer, PooledResults, PoolingCaution } from "../../pooling/pooled/index.js";
import { counted } from "../../schema/counted.js";
import { intervalName } from "../estimates.js";
import { groupWords } from "../group-phrases.js";
import { capital, listed } from "../phrases.js";
import { digitsOf, limits, unitAfter } from "../units.js";
import {
  pooledComparisonWords,
  pooledGroupWords,
  pooledMeasureWords,
  pooledReasonWords,
  pooledUnit,
} from "./pooled-answers.js";

type Results = Pick<PooledResults, "agreed" | "sites" | "answers" | "cautions" | "explained">;
type Limits = { readonly lower: number | null; readonly upper: number | null };

const asked = ({ agreed }: Results) => agreed.file;

/** A value with its unit. */
function withUnit(value: number, answer: PooledAnswer): string {
  const unit = pooledUnit(answer);
  const digits = digitsOf(value, { unit });
  return digits + unitAfter(digits, unit);
}

/** "48 to 76 %", or null where a limit is missing. */
export function pooledLimits({ lower, upper }: Limits, answer: PooledAnswer): string | null {
  if (lower === null || upper === null) return null;
  const unit = pooledUnit(answer);
  const both = limits({ lower, upper }, unit);
  return both + unitAfter(both, unit);
}

/** The answers that the first page speaks of. */
export const mainAnswers = ({ answers }: Pick<PooledResults, "answers">): readonly PooledAnswer[] =>
  answers.filter(({ first_page }) => first_page);

/** One answer as a sentence or two, with its interval, and where a further site is expected. */
export function answerSentences(answer: PooledAnswer, results: Results): readonly string[] {
  const plan = asked(results);
  const { random } = answer;
  const about =
    answer.of === "group"
      ? `${capital(pooledMeasureWords(answer, plan))}, ${pooledGroupWords(answer, plan)}`
      : `${capital(pooledMeasureWords(answer, plan))}, ${pooledComparisonWords(answer, plan)}`;
  if (random.value === null) return [`${about}: no pooled answer (${pooledReasonWords(random.reason)}).`];
  const between = pooledLimits(random, answer);
  const name = intervalName(plan.confidence_level);
  const first = `${about}: ${withUnit(random.value, answer)}, ${between === null ? `without an interval (${pooledReasonWords(random.reason)})` : `${name} ${between}`}; ${basisWords(answer)}.`;
  return [first, ...direction(answer, plan), ...predictionSentence(answer), ...decided(answer)];
}

/** What a difference above or below 0 means for the people of the compared group. */
function direction(
  { of, measure, compared, reference }: PooledAnswer,
  { compare }: PooledResults["agreed"]["file"],
): readonly string[] {
  if (of === "group" || compared === null || reference === null) return [];
  const [one, other] = [compared, reference].map((label) => groupWords({ by: compare.by, label }).among);
  return measure === "mean_days"
    ? [`Below 0, people were back sooner ${one} than ${other}.`]
    : [`Above 0, more were back ${one} than ${other}.`];
}

function predictionSentence(answer: PooledAnswer): readonly string[] {
  const expected = pooledLimits(answer.random.prediction, answer);
  if (expected !== null)
    return [`The true figure of a further site of the same kind is expected between these: ${expected}.`];
  return answer.used > 0 && answer.used < 3
    ? ["From fewer than three sites nobody can say where a further site would lie."]
    : [];
}

/** Whether a difference can be told from none. */
function decided({ of, random: { lower, upper } }: PooledAnswer): readonly string[] {
  if (of === "group" || lower === null || upper === null) return [];
  return lower <= 0 && upper >= 0 ? ["These sites cannot tell it from no difference."] : [];
}

/** A count over the sites of an answer: "about" where a site rounds its own, and at how many sites where not all tell it. */
export function countWords(
  { told, not_told, rounded }: PooledAnswer["n"],
  { one, many, sites }: { readonly one: string; readonly many: string; readonly sites: number },
): string {
  const about = `${rounded ? "about " : ""}${counted(told, one, many)}`;
  if (not_told === 0) return about;
  const telling = sites - not_told;
  return telling === 0
    ? `number of ${many} left out`
    : `${about} at the ${counted(telling, "site that tells", "sites that tell")} it`;
}

/** Sites, people and injuries behind an answer; counts over different sites are not joined in one breath. */
function basisWords({ used, n, persons }: PooledAnswer): string {
  const [injuries, people] = [
    countWords(n, { one: "injury", many: "injuries", sites: used }),
    countWords(persons, { one: "person", many: "people", sites: used }),
  ];
  const isOfAll = n.not_told === 0 && persons.not_told === 0;
  return `${counted(used, "site", "sites")}${isOfAll ? ", " : "; "}${injuries}${isOfAll ? ", " : "; "}${people}`;
}

/** What so many sites can tell and what they cannot. */
export function whatSitesCanTell(results: Results): readonly string[] {
  const n = results.sites.length;
  if (n === 1)
    return [
      "There is one site, so nothing is pooled: the figures are those of this site, and nothing is known of others.",
    ];
  const first = mainAnswers(results)[0];
  const spread = first?.random.spread;
  const between = first === undefined || spread === undefined ? [] : spreadSentence(first);
  const isForetold = first !== undefined && pooledLimits(first.random.prediction, first) !== null;
  const common = [
    `${capital(counted(n, "site", "sites"))} can say what became of the people of these sites, taken together.`,
    ...between,
    ...(isForetold ? [furtherSiteCaution] : []),
  ];
  if (n >= results.explained.fewest_sites)
    return [
      ...common,
      "The interval is for the mean of sites like these; the prediction interval says how far a single further site may lie from it. Why sites differ is not shown by their differing: what one site does otherwise, it may also see and record otherwise. Lines of what they find on what they are follow further down, with what these cannot show.",
    ];
  return [
    ...common,
    "The interval allows for sites that differ, and with so few it is wide: it is for the mean of sites like these. The answer for exactly these sites, as if all had one and the same, is given as the common effect, with a narrower interval.",
    `Why sites differ cannot be learned from ${n} of them: no line of what they find on what they are is drawn, and no test made for small sites that answer otherwise; both need ${results.explained.fewest_sites} (common practice, no source).`,
    "That the sites agree would be no proof that others do: a spread between so few is often estimated as 0 where there is one.",
  ];
}

/** How often such intervals held the truth: tests/honesty/pooling/results.md, kinds in which sites differ, 400 draws. */
const furtherSiteCaution =
  "In invented pools of 6 and of 12 sites that differed, the prediction interval held the figure of a further site in 93 to 98 of 100 for shares and in 92 to 100 of 100 for differences; from 3 sites it is so wide that it nearly always does.";

function spreadSentence({ random: { spread }, used }: PooledAnswer): readonly string[] {
  if (used < 2 || spread.tau === null) return [];
  const { lower, upper } = spread.tau_squared;
  const found = `The standard deviation between the true figures of the sites is estimated as ${digitsOf(spread.tau, { unit: "ratio" })}, for the share back on the logit`;
  if (lower === null || upper === null) return [`${found}; how large it may be cannot be said.`];
  const between = limits({ lower: Math.sqrt(lower), upper: Math.sqrt(upper) }, "ratio");
  return [
    `${found}; anything from ${between} fits these figures as well${lower === 0 ? ", no difference between the sites among them" : ""}.`,
  ];
}

const cautionWords: Readonly<Record<PoolingCaution["code"], (sites: readonly string[]) => string>> = {
  "definitions-differ": (sites) =>
    `The sites ${listed(sites)} do not all mean the same by the return. The study file lets them be counted together; a difference between sites can be one of meaning.`,
  "definitions-not-stated": (sites) =>
    `What the return means is not stated, or not in one way, by ${listed(sites)}. Ask before the answer is used.`,
  "schedules-unlike": () =>
    "The sites saw their people on unlike schedules, so that returns are noticed earlier at some than at others.",
  "losses-unlike": () => "The sites lost unlike shares of their people to follow-up.",
  "paths-differ": (sites) =>
    `At ${listed(sites)} so many returns are known between visits only that the figures come from a model of the times; at the others each return is placed on a day.`,
  "versions-differ": (sites) =>
    `The summaries of ${listed(sites)} were made by different versions of the toolkit. Have them made again by one.`,
  "smallest-cells-differ": (sites) =>
    `The sites ${listed(sites)} hold back groups of different sizes, so that small groups may be there from some sites only.`,
  "few-sites": (sites) =>
    `There are ${sites.length} sites. The spread between so few is known poorly, and the intervals allow for that.`,
  "held-back": (sites) =>
    `${capital(listed(sites))} held groups back because they are small. Answers on such groups speak of the other sites alone, and shares of 0 or 100 % in small groups are missing, which can shift a pooled share towards the middle.`,
  "one-site-heavy": (sites) =>
    `The site ${listed(sites)} has more than half of the weight in the main answer: see the answer without it.`,
};

/** A caution about the sites, as a sentence. */
export const sayPoolingCaution = ({ code, sites }: PoolingCaution): string => cautionWords[code](sites);
