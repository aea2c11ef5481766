import type { FitFile, PointFile } from "../../pooling/rounds/index.js";
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

/** What a fit says, one line after another; the same numbers as in its file, with fewer digits. */
export function fitInWords(fit: FitFile): string {
  const few = fit.sites.length < 5;
  return [
    `${fit.model.asked.synthetic ? "SYNTHETIC DATA. " : ""}The fit of ${counted(fit.sites.length, "site", "sites")} after ${counted(fit.rounds, "round", "rounds")}: ${counted(fit.n, "injury", "injuries")} of ${counted(fit.people, "person", "people")}, ${counted(fit.events, "return", "returns")}.`,
    `  ${modelOf(fit)}`,
    ...fit.parameters
      .map((parameter) => sentenceOf(parameter, fit.confidence_level))
      .filter((line) => line !== ""),
    ...(fit.parameters.some(({ reason }) => reason === "monotone-likelihood")
      ? ["  Beside a ratio that is not finite, the other numbers are exact to about four digits."]
      : []),
    "  The intervals take several injuries of one person together. They speak of these sites alone: how much other sites would differ is not in them.",
    ...(few
      ? [`  ${counted(fit.sites.length, "site", "sites")} cannot show how far sites differ from one another.`]
      : []),
    `  ${figureCaution}`,
  ].join("\n");
}

/** What a point asks of the sites. */
export function pointInWords({ round, last, parameters, shared, sites }: PointFile): string {
  const values = parameters.map((name, j) => `${oneLine(name)} ${plainNumber(shared[j]!, 6)}`).join(", ");
  return [
    `Round ${round}${last ? ", the last one" : ""}: ${counted(parameters.length, "parameter", "parameters")} (${values}).`,
    sites.length === 0
      ? "  Send it to every site. Which sites answer this round settles which sites the fit is of."
      : `  Send it to the same sites: ${sites.map(({ site }) => oneLine(site)).join(", ")}.`,
  ].join("\n");
}
