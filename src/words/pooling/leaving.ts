import type { HeldBack, SiteSummary, WithheldReason } from "../../pooling/summary/index.js";
import { competingNoun } from "../terms.js";
import { pooledComparisonWords, pooledGroupName } from "./pooled-answers.js";

/** What is held back as a whole: a group, an end in a group, a comparison. */
export function heldBackName(one: HeldBack, { file }: SiteSummary["agreed"]): string {
  const { family, label, end } = one;
  if (one.of === "comparison") return pooledComparisonWords({ ...one, of: "comparison" }, file);
  const group = pooledGroupName({ family, label }, file.compare.by);
  return end === null ? group : `the share with ${competingNoun(end)}, ${group}`;
}

/** Why something stays at the site, after "held back:". */
export const withheldWords: Readonly<Record<WithheldReason, (smallest: number) => string>> = {
  "few-people": (smallest) => `fewer than ${smallest} people are behind it`,
  "by-subtraction": (smallest) =>
    `a group of fewer than ${smallest} people could be found from it by subtraction`,
  "all-alike": (smallest) =>
    `in a group of fewer than ${2 * smallest} people all were back, or none, which would give the outcome of each of them away`,
};

/** Why a figure with its error does not tell of a person, and what it does tell. */
export const whyNoPerson = (
  smallest: number,
  { withTable }: { readonly withTable: boolean },
): readonly string[] => [
  "Each figure is about a group, and comes with its error. From the two together a statistician can work out roughly how many people are behind the figure, and in a small group without losses exactly how many of them were back. Neither tells who they are.",
  `What could tell the outcome of a person is held back: every figure of a group of fewer than ${smallest} people; further groups from which such a group could be found by subtraction; a share of 0 or 100 % in a group of fewer than ${2 * smallest} people, since whoever knows that somebody is in the group would know that person's outcome; and the share that gave up or came to another end, where fewer than ${smallest} people did.`,
  `Counts are rounded to a multiple of ${smallest}, and left out where fewer people are behind them.${withTable ? " Those of the risk-set table are exact." : ""}`,
  ...(withTable
    ? [
        `No count of the risk-set table is of fewer than ${smallest} people, but for nobody. Groups within strata of fewer than ${2 * smallest} people are not in it, nor are further ones from which what is left out could be found by subtraction from the totals that leave beside it.`,
        "From the table and a share by a week within one of its bins somebody can work out how many of a group came back before and after that week, which may be a few. It does not tell who they are.",
      ]
    : []),
  "In a larger group the file says where nobody or everybody was back by a week. Whoever knows that somebody is in the group knows it of that person.",
  "Somebody who knows most people of a small group and how they did can learn how the others did. No rule on counts prevents that.",
];

/** What the file does not contain. */
export const whatStays: readonly string[] = [
  "No row of any table leaves, and no date: not of an injury, a visit, a treatment or a return.",
  "No name, code or number of a person leaves, and no age or sex of a single person.",
  "No free text about people leaves. The words in which the site states its definitions and its practice do leave, word for word from the table of sites: read them below.",
  "No file name and no place on the computer leaves.",
];

/** What people have to do before the file leaves. */
export const beforeSummaryLeaves: readonly string[] = [
  "Law, consent, the decision of an ethics committee and the rules of the site determine whether the file may leave, and to whom. This page helps to decide; it is not legal advice.",
  "Read the name of the site and the texts that it states of itself: they may name a place or a person.",
  "Two summaries of the same people, made at two times or with two settings, can tell together what neither tells alone: the difference is the people who came in between. Give out a new one only after enough new people, and have the earlier one deleted.",
  "Do not give out this file together with a report of the same data in which small cells are written.",
];
