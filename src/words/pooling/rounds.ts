import type { AnswerFile, FitFile, PointFile } from "../../pooling/rounds/index.js";
import { counted } from "../../schema/counted.js";
import { oneLine } from "../../schema/hidden-characters.js";
import { figureCaution } from "../cautions.js";
import { level, plainNumber, pValue, ratio } from "../numbers.js";

type Parameter = FitFile["parameters"][number];

const whatIs = {
  hazard_ratio: "ratio of the rates of return",
  time_ratio: "ratio of the times to return",
} as const;

const noRatio: Readonly<Record<string, string>> = {
  collinear: "no number of its own: nobody, or the one beside which the others of its field stand",
  "monotone-likelihood": "no finite ratio: on one side nobody returned, or everybody first",
  "no-variance": "no interval: the people's scores cancel",
  "not-converged": "no answer: the fit has not come to its maximum",
};

function sentenceOf({ name, what, ratio: estimate, lower, upper, p, reason }: Parameter, at: number): string {
  if (what !== "hazard_ratio" && what !== "time_ratio") return "";
  const label = `  ${oneLine(name)}: `;
  if (reason !== null || estimate === null) return `${label}${noRatio[reason ?? ""] ?? "no number"}.`;
  const interval =
    lower === null || upper === null
      ? "no interval"
      : `${level(at)} interval ${ratio(lower)} to ${ratio(upper)}`;
  return `${label}${whatIs[what]} ${ratio(estimate)} (${interval}${p === null ? "" : `, p ${/^[<>]/.test(pValue(p)) ? "" : "= "}${pValue(p)}`}).`;
}

const modelOf = ({ model }: Pick<FitFile, "model">): string =>
  model.fit === "hazards"
    ? `Proportional hazards, each site and each stratum in it compared within itself (${model.ties === "efron" ? "Efron" : "Breslow"}'s ties).`
    : `Accelerated times, ${model.law} law, returns between the days between which they are known, each site with an intercept of its own.`;

const countedOf = ({ n, people, events }: Pick<FitFile, "n" | "people" | "events">): string =>
  [
    n === null
      ? `${counted(people, "person", "people")} (how many injuries they had is left out: at a site few had a second one)`
      : `${counted(n, "injury", "injuries")} of ${counted(people, "person", "people")}`,
    events === null
      ? "how many returned is left out: at a site few did, or few did not"
      : counted(events, "return", "returns"),
  ].join(", ");

/** How the variance over people was corrected for few of them. */
function fewInWords({
  few_people: { correction, degrees_of_freedom },
  people,
  confidence_level,
}: FitFile): string {
  const by = {
    deletion: "by what the fit would change without each person",
    people: `by the factor ${people} / ${people - 1}`,
    parameters: `by the factor ${people} / ${degrees_of_freedom}, people over people less parameters`,
  }[correction];
  return `The variance is corrected for few people ${by}; intervals of ${level(confidence_level)} by Student's t with ${counted(degrees_of_freedom, "degree", "degrees")} of freedom.`;
}

/** What the rounds revealed in all: for a board, so that nobody takes sums for nothing. */
export const revealedInWords = ({ answers, numbers }: FitFile["revealed"]): string =>
  `What left each site: ${counted(answers, "answer", "answers")}, one a round, with ${counted(numbers, "number", "numbers")} that are sums over its rows, and the counts in them; no row, no date, no id. Every answer tells something more of the same people, and together they tell more than one estimate with its error: a board should know their number, and that nobody should answer the same rows in many different fits.`;

/** What a fit says, one line after another; the same numbers as in its file, with fewer digits. */
export function fitInWords(fit: FitFile): string {
  const few = fit.sites.length < 5;
  return [
    `${fit.model.asked.synthetic ? "SYNTHETIC DATA. " : ""}The fit of ${counted(fit.sites.length, "site", "sites")} after ${counted(fit.rounds, "round", "rounds")}: ${countedOf(fit)}.`,
    `  ${modelOf(fit)}`,
    ...fit.parameters
      .map((parameter) => sentenceOf(parameter, fit.confidence_level))
      .filter((line) => line !== ""),
    ...(fit.parameters.some(({ reason }) => reason === "monotone-likelihood")
      ? ["  Beside a ratio that is not finite, the other numbers are exact to about four digits."]
      : []),
    `  ${fewInWords(fit)}`,
    "  The intervals take several injuries of one person together. They speak of these sites alone: how much other sites would differ is not in them.",
    ...(few
      ? [`  ${counted(fit.sites.length, "site", "sites")} cannot show how far sites differ from one another.`]
      : []),
    `  ${revealedInWords(fit.revealed)}`,
    `  ${figureCaution}`,
  ].join("\n");
}

/** What an answer contains, for the site that sends it. */
export function answerInWords(answer: AnswerFile, { asks, model }: PointFile): string {
  const { site, round, left_out: leftOut } = answer;
  const lost =
    leftOut === 0
      ? ""
      : ` ${leftOut === null ? "A few injuries are" : counted(leftOut, "injury is", "injuries are")} left out, which lack a value that the fit needs or are of a group of very few people at this site.`;
  const last = asks === "deletions" || (asks === "squares" && model.fit === "accelerated");
  return [
    `${oneLine(site)} answers round ${round}${last ? ", most likely the last one" : ""}: ${countedOf(answer)}.${lost}`,
    "  The file contains sums over people and these counts; no row. Send it to the coordinator.",
  ].join("\n");
}

const asked = {
  sums: "",
  squares: ", at what is most likely the maximum, with the squared scores of the people",
  deletions: ", the same point once more, for the correction for few people",
} as const;

/** What a point asks of the sites. */
export function pointInWords({ round, asks, parameters, shared, sites, sent }: PointFile): string {
  const values = parameters.map((name, j) => `${oneLine(name)} ${plainNumber(shared[j]!, 6)}`).join(", ");
  return [
    `Round ${round}${asked[asks]}: ${counted(parameters.length, "parameter", "parameters")} (${values}).`,
    sites.length === 0
      ? "  Send it to every site. Which sites answer this round settles which sites the fit is of."
      : `  Send it to the same sites: ${sites.map(({ site }) => oneLine(site)).join(", ")}. Each has sent ${counted(sent, "number", "numbers")} over its rows so far.`,
  ].join("\n");
}
