import type { PooledResults } from "../../pooling/pooled/index.js";
import { citations as c } from "../../statistics/citations.js";
import { level } from "../numbers.js";
import { tableMethods } from "./risk-sets.js";

const cited = (sentence: string, ...sources: readonly string[]): string =>
  `${sentence} (${sources.join("; ")}).`;

/** How the sites were pooled, each method with its source. */
export function pooledMethods({ agreed, sites, answers, risk_sets }: PooledResults): readonly string[] {
  const inSpans = answers.some((one) => one.sites.some(({ path }) => path === "spans"));
  return [
    cited(
      "Each site computed its own figures from its own rows; shares back are cumulative incidences, beside competing ends where the study file says so",
      c.aalenJohansen1978,
    ),
    cited(
      "Errors and the variance matrix of the figures of a group come from what each person moves them by, injuries of one person together",
      c.linWei1989,
      c.efronStein1981,
    ),
    ...(inSpans
      ? [
          cited(
            "Where returns are known between visits only, a site's figures come from an accelerated model chosen by AIC, with the models' covariance",
            c.kalbfleischPrentice2002,
            c.akaike1974,
          ),
        ]
      : []),
    cited(
      "Shares are pooled on the logit, with half an injury added on either side, so that a site at which nobody or everybody is back has its part as well; a difference of shares and mean days as they are, with the variance that half an injury would give where nobody or everybody is back, and the factor n / (n - k) of small samples",
      c.haldane1956,
      c.gartZweifel1967,
    ),
    cited("Common effect: the inverse-variance mean", c.cochran1954P101),
    cited(
      "Random effects: the variance between sites by restricted likelihood, and by Paule and Mandel beside it",
      c.viechtbauer2005,
      c.pauleMandel1982,
    ),
    cited(
      `The ${level(agreed.file.confidence_level)} interval is that of Hartung and Knapp, never narrower than the normal one`,
      c.hartungKnapp2001,
      c.roeverKnapp2015,
    ),
    cited(
      "The prediction interval says where the true figure of a further site is expected; two degrees of freedom are spent",
      c.higginsThompson2009,
    ),
    cited(
      "Q and I-squared measure by how much sites differ beyond their errors; limits of the variance between sites are those at which Q has its tails",
      c.higginsThompson2002,
      c.viechtbauer2007,
    ),
    cited("The answer without each site in turn", c.viechtbauerCheung2010),
    ...(sites.length < 10
      ? [
          "No regression on what the sites do, and no test for small sites that answer otherwise, is made from fewer than ten sites.",
        ]
      : []),
    ...tableMethods({ risk_sets }),
    "Each site's difference with something held equal is at the mix of strata of that site.",
    "A person who was treated at two sites counts at both: summaries cannot tell.",
  ];
}
