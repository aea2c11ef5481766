import type { PooledResults } from "../../pooling/pooled/index.js";
import { citations as c } from "../../statistics/citations.js";
import { level } from "../numbers.js";
import { tableMethods } from "./risk-sets.js";

const cited = (sentence: string, ...sources: readonly string[]): string =>
  `${sentence} (${sources.join("; ")}).`;

/** How the sites were pooled, each method with its source. */
export function pooledMethods({
  agreed,
  sites,
  answers,
  explained,
  risk_sets,
}: PooledResults): readonly string[] {
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
      "Shares are pooled by the likelihood of their counts, each site's log odds lying about a common mean; where follow-up ends early or people have several injuries the counts are effective numbers, of the size that would have the share's error without either",
      c.hamzaStijnen2008,
      c.stijnenHamza2010,
      c.cutlerEderer1958,
    ),
    cited(
      "Where counts give no interval, since nobody or everybody is back at all sites, and for Q, I-squared, the answer by Paule and Mandel and the lines on what sites are, a share is a logit with half an injury added on either side; a difference of shares and mean days are pooled as they are, with the variance that half an injury would give where nobody or everybody is back, and the factor n / (n - k) of small samples",
      c.haldane1956,
      c.gartZweifel1967,
    ),
    cited("Common effect: the inverse-variance mean, of shares all counts together", c.cochran1954P101),
    cited(
      "Random effects: the variance between sites by restricted likelihood, and by Paule and Mandel beside it",
      c.viechtbauer2005,
      c.pauleMandel1982,
    ),
    cited(
      `The ${level(agreed.file.confidence_level)} interval is that of Hartung and Knapp, never narrower than the normal one; of shares it takes the same Student's t`,
      c.hartungKnapp2001,
      c.roeverKnapp2015,
    ),
    cited(
      "The prediction interval says where the true figure of a further site is expected: every spread between sites has its part by its restricted likelihood and the reference density, so that a spread that was found too small does not make it too narrow",
      c.bodnarLink2017,
      c.nagashimaNoma2019,
    ),
    cited(
      "Q and I-squared measure by how much sites differ beyond their errors; limits of the variance between sites are those at which Q has its tails",
      c.higginsThompson2002,
      c.viechtbauer2007,
    ),
    cited("The answer without each site in turn", c.viechtbauerCheung2010),
    ...(sites.length < explained.fewest_sites
      ? [
          `No regression on what the sites are, and no test for small sites that answer otherwise, is made from fewer than ${explained.fewest_sites} sites.`,
        ]
      : [
          cited(
            "Each main answer on each characteristic of the sites by itself: weighted regression with the spread that the line leaves by restricted likelihood, errors by Knapp and Hartung, never narrower than the normal ones",
            c.knappHartung2003,
            c.thompsonHiggins2002,
          ),
          cited(
            "Whether small sites answer otherwise: regression on the standard error, from ten sites on, of differences and mean days only",
            c.eggerSmith1997,
            c.sterneSutton2011,
          ),
        ]),
    ...tableMethods({ risk_sets }),
    "Each site's difference with something held equal is at the mix of strata of that site.",
    "A person who was treated at two sites counts at both: summaries cannot tell.",
  ];
}
