import { citations as c } from "../citations.js";
import type { Method } from "./method.js";

export const pooling: readonly Method[] = [
  {
    name: "common effect of sites",
    functions: ["commonEffect"],
    files: ["pooling/two-stage/common-effect.ts"],
    checkedAgainst: "pooling",
    sources: [c.cochran1954P101],
  },
  {
    name: "random effects of sites: four estimators of the spread, Hartung-Knapp and prediction intervals",
    functions: ["randomEffects"],
    files: ["pooling/two-stage/random-effects.ts", "pooling/two-stage/spread.ts"],
    checkedAgainst: "pooling",
    sources: [
      c.hartungKnapp2001,
      c.sidikJonkman2002,
      c.roeverKnapp2015,
      c.higginsThompson2009,
      c.derSimonianLaird1986,
      c.pauleMandel1982,
      c.raudenbush2009,
      c.viechtbauer2005,
    ],
  },
  {
    name: "where the true answer, or the true share, of a further site is expected, the spread between sites integrated out",
    functions: ["furtherSite", "furtherSiteShare"],
    files: ["pooling/two-stage/further-site.ts", "pooling/two-stage/over-spreads.ts"],
    checkedAgainst: "pooling_further_site",
    sources: [c.bodnarLink2017, c.nagashimaNoma2019, c.hamzaStijnen2008],
  },
  {
    name: "Q, both I-squared, H, limits of the variance between sites",
    functions: ["heterogeneity"],
    files: ["pooling/two-stage/heterogeneity.ts"],
    checkedAgainst: "pooling",
    sources: [c.cochran1954P101, c.higginsThompson2002, c.viechtbauer2007],
  },
  {
    name: "one site left out in turn",
    functions: ["leaveOneOut"],
    files: ["pooling/two-stage/leave-one-out.ts"],
    checkedAgainst: "pooling",
    sources: [c.viechtbauerCheung2010],
  },
  {
    name: "regression on what describes sites, groups of sites",
    functions: ["metaRegression", "subgroups"],
    files: ["pooling/two-stage/meta-regression.ts", "pooling/two-stage/subgroups.ts"],
    checkedAgainst: "pooling, pooling_more",
    sources: [c.knappHartung2003, c.thompsonHiggins2002, c.borensteinHiggins2013],
  },
  {
    name: "asymmetry of small sites",
    functions: ["smallStudyAsymmetry"],
    files: ["pooling/two-stage/asymmetry.ts"],
    checkedAgainst: "pooling",
    sources: [c.eggerSmith1997, c.sterneSutton2011],
  },
  {
    name: "shares of sites by their exact counts; their log odds and differences",
    functions: ["pooledShare", "logOddsOfShares", "differencesOfShares"],
    files: ["pooling/two-stage/"],
    checkedAgainst: "pooling_more",
    sources: [
      c.hamzaStijnen2008,
      c.stijnenHamza2010,
      c.harville1977,
      c.trefethenWeideman2014,
      c.gartZweifel1967,
      c.agrestiCaffo2000,
    ],
  },
  {
    name: "medians of sites",
    functions: ["logMedians"],
    files: ["pooling/two-stage/median-times.ts"],
    checkedAgainst: "by hand",
    sources: [c.mcGrathZhao2019],
  },
];
