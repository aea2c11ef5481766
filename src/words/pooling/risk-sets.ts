import type { PooledResults } from "../../pooling/pooled/index.js";
import type { SiteSummary } from "../../pooling/summary/index.js";
import { counted } from "../../schema/counted.js";
import { citations as c } from "../../statistics/citations.js";
import { intervalName } from "../estimates.js";
import { groupWords } from "../group-phrases.js";
import { comparisonName } from "../measures.js";
import { pValue, ratio, rounded } from "../numbers.js";
import { capital, listed } from "../phrases.js";
import { reasonWords } from "../reasons.js";
import { fieldWords, groupName } from "../terms.js";
import { byDay } from "../times.js";
import { limits } from "../units.js";

type RiskSets = NonNullable<PooledResults["risk_sets"]>;
export type AddedTables = NonNullable<RiskSets["together"]>;
type OfSite = NonNullable<SiteSummary["risk_sets"]>;
type Agreed = PooledResults["agreed"]["file"];
type WhyNone = RiskSets["without"][number]["reason"];

const whyNone: Readonly<Record<WhyNone, string>> = {
  "no-rows": "no injury is in a group that is compared",
  "between-visits":
    "returns are known only between two visits, and a table would place each of them on one day",
  "small-cells": "each group, within a stratum, is of too few people or would give such a group away",
  "small-bins": "counts in the bins that were asked for are of too few people",
  "not-asked": "none was asked for",
};

/** With fewer bins than this a curve by steps would say more than is known: our choice. */
export const fewBins = 20;

/** With fewer ends of bins that all sites share, a line through them is no curve. */
export const fewestShared = 3;

/** Whether the sites' bins have so many ends in common that there is a curve of all. */
export const hasCommonCurve = ({ bin_ends }: AddedTables): boolean => bin_ends.length >= fewestShared;

/** Why a site sent no table, after a colon. */
export const whyNoTable = (reason: WhyNone): string => whyNone[reason];

/** Ends of bins: "week 3, week 7 and day 51"; of many the first and last. */
export function binsInWords(ends: readonly number[]): string {
  if (ends.length <= 12) return `${counted(ends.length, "bin", "bins")}, up to ${listed(ends.map(byDay))}`;
  return `${ends.length} bins, the first up to ${byDay(ends[0]!)} and the last up to ${byDay(ends.at(-1)!)}`;
}

/** What becomes of the table that a site was asked for, as sentences; the second tells of wider bins. */
export function tableOfSiteWords(made: OfSite): readonly string[] {
  if (made.leaves) {
    const { bin_ends, bin_days, cells, smallest_cell } = made.table;
    const exact =
      smallest_cell > 1
        ? `Its counts are exact, and none is of fewer than ${smallest_cell} people.`
        : "Its counts are exact, and may be of single people.";
    return [
      `A risk-set table leaves: ${counted(cells.length, "group within a stratum", "groups within strata")}, ${binsInWords(bin_ends)} (asked for: every ${counted(bin_days, "day", "days")}).`,
      exact,
    ];
  }
  const none = `No risk-set table leaves: ${whyNoTable(made.reason)} (asked for: every ${counted(made.bin_days, "day", "days")}).`;
  if (made.reason === "small-cells") return [none, "Wider bins would not change that."];
  if (made.reason !== "small-bins") return [none];
  const wider =
    made.coarser_bin_ends === null
      ? "None could leave in wider bins either: fewer than three of them with a return would remain."
      : `One could leave in ${binsInWords(made.coarser_bin_ends)}; --coarser-bins asks for it.`;
  return [none, wider];
}

/** What is left out of a table, and why. */
export function leftOutOfTableWords(
  { reason, cells, injuries }: AddedTables["sites"][number]["left_out"][number],
  smallest: number,
): string {
  const some = counted(cells, "group within a stratum", "groups within strata");
  if (reason === "small-cell")
    return `${some} of fewer than ${2 * smallest} people: all counts but one would be of too few, and that one would tell the outcome of each`;
  if (reason === "would-reveal")
    return `${some} from which smaller ones could be found by subtraction from what else leaves`;
  if (reason === "small-bins")
    return `${some}, of strata that have no bins in common with the others in which no count would be of too few people`;
  return `${injuries === null ? "a few injuries" : counted(injuries, "injury", "injuries")} without a value that is held equal`;
}

const heldWithin = ({ held_equal }: AddedTables): string =>
  held_equal.length === 0 ? "within each site" : `within each ${listed(fieldWords(held_equal))} at each site`;

/** What the tables are, and how many sites sent one. */
export function tablesOpening(tables: AddedTables): string {
  const { sites, injuries, events } = tables;
  const sent =
    sites.length === 1
      ? "One site also sent a table of who was at risk, who came back and who came to another end"
      : `${sites.length} sites also sent tables of who was at risk, who came back and who came to another end`;
  return `${sent}, counted by groups and bins of time: ${counted(injuries, "injury", "injuries")}, ${counted(events, "return", "returns")}. ${
    sites.length === 1 ? "It gives" : "Added up they give"
  } what one analysis of all these rows, with each day drawn to the end of its bin, would give${
    tables.same_bins ? "" : binsDiffer(tables)
  }.`;
}

const binsDiffer = (tables: AddedTables): string =>
  hasCommonCurve(tables)
    ? "; the bins of the sites differ, so the curves are read where all of them have one"
    : "; the bins of the sites differ, and end on too few days in common for a curve of all of them";

/** A hazard ratio and what it means, as a sentence. */
export function tableRatioWords(
  one: AddedTables["hazard_ratios"][number],
  { tables, compare }: { readonly tables: AddedTables; readonly compare: Agreed["compare"] },
): string {
  const [name, other] = [one.compared, one.reference].map((label) => groupName(label, compare.by));
  const about = `${capital(comparisonName(name!, other!))}, ${heldWithin(tables)}`;
  const { estimate, lower, upper, p, reason } = one;
  if (estimate === null) return `${about}: no hazard ratio (${reasonWords(reason)}).`;
  const interval =
    lower === null || upper === null
      ? `without an interval (${reasonWords(reason)})`
      : `${intervalName(tables.level)} ${limits({ lower, upper }, "ratio")}${p === null ? "" : `, p ${pValue(p)}`}`;
  const among = groupWords({ by: compare.by, label: one.compared }).among;
  return `${about}: hazard ratio of return ${ratio(estimate)} (${interval}). Above 1, the returns came at a higher rate ${among}.`;
}

/** The log-rank test, as a sentence. */
export function tableTestWords(tables: AddedTables): string {
  const { chi_square, df, p, reason } = tables.log_rank;
  const name = `Log-rank test of equal curves ${heldWithin(tables)}`;
  return chi_square === null || p === null
    ? `${name}: none (${reasonWords(reason)}).`
    : `${name}: chi-square ${rounded(chi_square, { decimals: 2 })}, ${counted(df, "degree", "degrees")} of freedom, p ${pValue(p)}.`;
}

/** What a reader must know before the numbers of the tables are used. */
export function tableCautions(tables: AddedTables): readonly string[] {
  const { not_held_equal, sites, curves, ties } = tables;
  // measured in tests/bench/pooled-scale.md
  const wide = sites.filter(({ bin_ends }) => bin_ends.length < fewBins).map(({ site }) => site);
  const withLeftOut = sites.filter(({ left_out }) => left_out.length > 0).map(({ site }) => site);
  return [
    "The intervals and p values take every injury on its own, since a table does not tell who the people are. Where people have several injuries they can be too narrow. The answers in two stages allow for such injuries.",
    sites.length === 1
      ? "The numbers are those of this one site."
      : "The hazard ratio is taken for one and the same at all sites, and its interval speaks of these sites only: how much a further site may differ is not in it.",
    ...(hasCommonCurve(tables)
      ? [
          "The curves take the injuries of all sites as one group, as they are: where one group was seen more often at a site with milder injuries, that is in the curves, and not in the ratios.",
        ]
      : []),
    `Within a bin nobody knows who came first: returns in one bin are tied, and taken by the rule of ${ties === "efron" ? "Efron" : "Breslow"}. Whoever came under observation in a bin counts as at risk from its beginning, and whoever left in it to its end. The wider the bins, the nearer to 1 a ratio comes out.`,
    ...(wide.length === 0
      ? []
      : [
          `The bins of ${listed(wide)} are wide. In invented sites with a true ratio of 1.25, weekly bins gave 1.24, and about six bins a site 1.19.`,
        ]),
    ...(curves.answers === "share_of_people" || !hasCommonCurve(tables)
      ? []
      : [
          "The curves count other ends as ends of follow-up, so that they show the share that would be back if nobody came to such an end. That is a supposition, and no share of people.",
        ]),
    ...(not_held_equal.length === 0
      ? []
      : [
          `${capital(listed(fieldWords(not_held_equal)))} ${not_held_equal.length === 1 ? "is" : "are"} held equal by the study file and not in the tables. A fit over rounds of files can hold ${not_held_equal.length === 1 ? "it" : "them"} equal.`,
        ]),
    ...(withLeftOut.length === 0
      ? []
      : [
          `${capital(listed(withLeftOut))} left groups out of ${withLeftOut.length === 1 ? "its table" : "their tables"}: these injuries are in none of these numbers.`,
        ]),
  ];
}

/** Which sites sent no table, and why, as a sentence each. */
export const sitesWithoutTable = ({ without }: RiskSets): readonly string[] =>
  [...new Set(without.map(({ reason }) => reason))].map((reason) => {
    const sites = without.filter((one) => one.reason === reason).map(({ site }) => site);
    return `No table came from ${listed(sites)}: ${whyNoTable(reason)}.`;
  });

/** How the tables were used, each method with its source. */
export function tableMethods({ risk_sets }: Pick<PooledResults, "risk_sets">): readonly string[] {
  const tables = risk_sets?.together ?? null;
  if (tables === null) return [];
  const curve =
    tables.curves.answers === "share_of_people"
      ? `the cumulative incidence with the variance of the delta method (${c.aalenJohansen1978})`
      : `the product-limit curve with Greenwood's variance (${c.kaplanMeier1958})`;
  return [
    `From risk-set tables, each injury on its own: ${curve}; the log-rank test within strata and sites (${c.mantel1966}; ${c.petoPeto1972}); the proportional-hazards regression with a baseline for each stratum of each site (${c.cox1972}), ties by ${tables.ties === "efron" ? `Efron (${c.efron1977})` : `Breslow (${c.breslow1974})`}, standard errors from the inverse information. Whoever leaves in a bin counts as at risk to its end, and whoever comes late as at risk from its beginning.`,
  ];
}
