import type { Figure } from "../../charts/index.js";
import { counted } from "../../schema/counted.js";
import type { Results } from "../../study/results.js";
import { cautionLine, distanceCautionLine, syntheticLine } from "../../words/cautions.js";
import { isSome } from "../../words/counts.js";
import { intervalName } from "../../words/estimates.js";
import { type FigureFamily, figureKinds } from "../figures.js";

/** The caption of a figure: what it shows, of whom, how many, by which method and with which interval, and the cautions. */
export function captionOf(figure: Figure, family: FigureFamily, results: Results): string {
  const { plan, accounting } = results;
  const { analysed, persons } = accounting.analysis;
  const { showsReturns } = figureKinds[family];
  const cautions = [
    ...(showsReturns ? [cautionLine] : []),
    ...(family === "distances" ? [distanceCautionLine] : []),
    ...(plan.synthetic ? [syntheticLine] : []),
  ];
  const notes = figure.notes.filter((note) => !cautions.some((caution) => caution.includes(note)));
  return [
    figure.title,
    `${capital(figure.subtitle)}.`,
    `Of whom: ${counted(analysed, "finger pulley injury", "finger pulley injuries")} of climbers, of ${counted(persons, "person", "people")}, in this study.`,
    `Method: ${methods[family](results)}`,
    ...(isWithIntervals(family) ? [`Intervals: ${intervalName(plan.confidence_level)}s.`] : []),
    ...notes,
    ...cautions,
  ].join(" ");
}

/** The caption, then the figure in words, as the text that goes with the drawing. */
export const captionFile = (figure: Figure, family: FigureFamily, results: Results): string =>
  `Caption\n\n${captionOf(figure, family, results)}\n\nThe figure in words, for those who cannot see it\n\n${figure.title} ${figure.description}\n`;

const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

const isWithIntervals = (family: FigureFamily): boolean => !["balance", "missing"].includes(family);

type Method = (results: Results) => string;

const share: Method = ({ follow_up, known_returns, plan }) => {
  if (known_returns.path === "spans")
    return "share back by an accelerated model of the time to a return, since many returns are known only to lie between two days.";
  const competing = follow_up.competing.some(({ n }) => isSome(n));
  return competing && plan.question.share_back === "of_everyone"
    ? "share back as the cumulative incidence of the return beside the competing ends; limits on the log-log scale."
    : "share back as one minus the product-limit estimate; limits on the log-log scale.";
};

const methods: Readonly<Record<FigureFamily, Method>> = {
  all: share,
  grade: share,
  compared: share,
  definition: share,
  standardised: (results) =>
    `${share(results).slice(0, -1)}, averaged over both groups together, so that they are compared like for like.`,
  ends: () => "cumulative incidence of each end; limits on the log-log scale.",
  after: () => "shares in each state by the Aalen-Johansen estimator; limits by the score method.",
  forest: ({ known_returns }) =>
    known_returns.path === "spans"
      ? "differences and ratios from an accelerated model of the time to a return."
      : "differences of shares back and of restricted mean times from the curves of the groups, hazard ratios from proportional hazards; each with and without adjustment, as its row says.",
  difference: () =>
    "difference of the two curves, with limits for each day alone and, where it is drawn, a band for all days together.",
  balance: () => "difference of the groups in units of their standard deviation (standardised difference).",
  missing: () => "share of injuries in which a field is blank, as the tables were read.",
  loss: () =>
    "the answer computed again with those lost to follow-up returning at other rates than those still followed.",
  distances: () => "mean of the last less the first reading; limits by Student\u2019s t.",
};
