import { citations as c } from "../statistics/citations.js";

/** Published sources of practices that are no method of ours. */
const practices = {
  immortalTime: "Suissa 2008, Am J Epidemiol 167:492",
  heaping: "Bar & Lillard 2012, Stat Med 31:3347",
  inexact: "Zhang & Sun 2010, Stat Methods Med Res 19:53",
  targetTrial: "Hern\u00e1n & Robins 2016, Am J Epidemiol 183:758",
  reporting: "von Elm and others 2007, Lancet 370:1453",
} as const;

const together = (...sources: readonly string[]): string => sources.join("; ");

/** What a report cites, by what it is the source of. */
export const sources = {
  ...practices,
  productLimit: c.kaplanMeier1958,
  greenwood: c.greenwood1926,
  logLog: c.kalbfleischPrentice1980,
  jackknife: c.efronStein1981,
  clusters: c.linWei1989,
  quantiles: c.brookmeyerCrowley1982,
  restrictedMean: together(c.irwin1949, c.roystonParmar2013),
  restrictedMeanOfEveryone: c.andersen2013,
  followUp: c.schemperSmith1996,
  completeness: c.clarkAltman2002,
  afterLoss: c.jackson2014,
  competing: c.aalenJohansen1978,
  states: together(c.andersenKeiding2002, c.aalenJohansen1978),
  rate: c.garwood1936,
  clusteredRate: c.raoScott1999,
  exactShare: c.clopperPearson1934,
  logRank: together(c.mantel1966, c.petoPeto1972),
  trend: c.tarone1975,
  hazards: c.cox1972,
  ties: c.efron1977,
  proportionality: c.grambschTherneau1994,
  standardised: together(c.makuch1982, c.zucker1998),
  delayedEntry: c.andersenGill1982,
  permuted: together(c.petoPeto1972, c.heimannNeuhaus1998),
  student: c.student1908,
  score: c.wilson1927,
  differenceBand: together(c.parzenWei1997, c.lin1997),
  recovered: together(c.newcombe1998P873, c.zouDonner2008),
  recoveredOverStrata: together(c.yanSu2010, c.zouDonner2008),
  welch: c.welch1947,
  reducedBias: together(c.bellMcCaffrey2002, c.pustejovskyTipton2018),
  effectiveSize: c.raoScott1992,
  deletion: together(c.lipsitzDear1994, c.kauermannCarroll2001),
  shareInterval: c.wilson1927,
  baseline: c.vickersAltman2001,
  standardisedDifference: c.austin2009,
  betweenVisits: together(c.turnbull1976, c.hudgens2001),
  accelerated: c.kalbfleischPrentice2002,
  aic: c.akaike1974,
  standardisedByModel: c.robins1986,
  recoveredLimits: c.zouDonner2008,
  spanWidths: together(c.lindseyRyan1998, c.kruskalWallis1952),
} as const;
