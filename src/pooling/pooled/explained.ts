import { metaRegression, smallStudyAsymmetry } from "../../statistics/pooling/index.js";
import type { SiteSummary } from "../summary/site-summary.js";
import { fewSites } from "./cautions.js";
import { characteristicsOf } from "./characteristics.js";
import type {
  AsymmetryLine,
  CharacteristicLine,
  Explained,
  PooledAnswer,
  SiteCharacteristic,
} from "./pooled-results.js";

/**
 * Whether what the sites are goes with what they find: a line for each main answer and each characteristic by itself, and whether small sites
 * answer otherwise. From ten sites on only: with fewer, lines find little, and what they find may be chance.
 */
export function explainedBy(
  sites: readonly SiteSummary[],
  { answers, level }: { readonly answers: readonly PooledAnswer[]; readonly level: number },
): Explained {
  const characteristics = characteristicsOf(sites);
  const isEnough = sites.length >= fewSites;
  return {
    fewest_sites: fewSites,
    characteristics,
    lines: isEnough
      ? answers.flatMap((one) => characteristics.map((each) => lineOf(one, { each, level })))
      : [],
    small_sites: isEnough ? answers.map((one) => asymmetryOf(one, level)) : [],
  };
}

/** As it is shown: a ratio of odds for a share, the change itself otherwise. */
function shownChange({ scale }: PooledAnswer, change: number | null): number | null {
  if (change === null) return null;
  return scale === "logit" ? Math.exp(change) : change;
}

const noLine = { value: null, lower: null, upper: null, p: null, tau: null, tau_without: null } as const;

function lineOf(
  answer: PooledAnswer,
  { each, level }: { readonly each: SiteCharacteristic; readonly level: number },
): CharacteristicLine {
  const { characteristic, step } = each;
  const rows = answer.sites.flatMap(({ estimate, variance }, i) => {
    const { value } = each.sites[i]!;
    return estimate === null || variance === null || value === null ? [] : [{ estimate, variance, value }];
  });
  const about = { answer: answer.id, characteristic, sites: rows.length };
  if (rows.length < fewSites) return { ...about, ...noLine, reason: "too-few-sites" };
  const columns = {
    estimates: rows.map(({ estimate }) => estimate),
    variances: rows.map(({ variance }) => variance),
  };
  const values = rows.map(({ value }) => value / step);
  const line = metaRegression(
    { ...columns, covariates: { names: [characteristic], columns: [values] } },
    { level },
  );
  const none = metaRegression({ ...columns, covariates: { names: [], columns: [] } }, { level });
  const reason = line.reason ?? line.reasons[1]!;
  if (reason !== null) return { ...about, ...noLine, reason };
  return {
    ...about,
    value: shownChange(answer, line.coefficients[1]!),
    lower: shownChange(answer, line.lower[1]!),
    upper: shownChange(answer, line.upper[1]!),
    p: line.p[1]!,
    tau: Math.sqrt(line.tauSquared!),
    tau_without: Math.sqrt(none.tauSquared!),
    reason: null,
  };
}

/** Of a share the logit and its error are tied by the counts, so that a slope would be no sign of anything: there is none. */
function asymmetryOf(answer: PooledAnswer, level: number): AsymmetryLine {
  const none = { slope: null, lower: null, upper: null, p: null };
  if (answer.scale === "logit") return { answer: answer.id, sites: answer.used, ...none, reason: "tied" };
  const columns = {
    estimates: answer.sites.map(({ estimate }) => estimate),
    variances: answer.sites.map(({ variance }) => variance),
  };
  const { estimate, lower, upper, p, sites, reason } = smallStudyAsymmetry(columns, { level });
  return { answer: answer.id, sites, slope: estimate, lower, upper, p, reason };
}
