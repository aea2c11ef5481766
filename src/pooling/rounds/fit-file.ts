import { freeParameters } from "../../statistics/pooling/rounds/ascent.js";
import {
  asTheyAre,
  asTimes,
  fitOfRounds,
  type RoundParameter,
} from "../../statistics/pooling/rounds/fit-of-rounds.js";
import { deletionsOverSites, type SummedSites } from "../../statistics/pooling/rounds/sum-over-sites.js";
import type { NamedAnswer } from "./check-answers.js";
import { numbersAskedBy, scaleName } from "./fit-model.js";
import type { FitFile, PointFile } from "./round-files.js";
import { type Sha256, seal } from "./seal.js";

type FitParameter = FitFile["parameters"][number];

/** The fit at the last point. */
export function fitFileOf(
  content: PointFile,
  found: {
    readonly answers: readonly NamedAnswer[];
    readonly sums: SummedSites;
    readonly sha256: Sha256;
  },
): FitFile {
  const { answers, sums, sha256 } = found;
  const { model } = content;
  const { confidence_level } = model.asked;
  const sites = model.fit === "accelerated" ? answers.map(({ content: { site } }) => site) : [];
  const intercepts = content.sites.flatMap(({ intercept }) => intercept ?? []);
  const point = [...intercepts, ...content.shared];
  const names = [...sites.map((site) => `intercept of ${site}`), ...content.parameters];
  const ascent = content.ascent ?? {
    free: freeParameters(sums.information),
    first: sums.information.map((row, j) => row[j]!),
  };
  const fit = fitOfRounds(
    {
      ...sums,
      point,
      squares: sums.squares ?? [],
      deletions: deletionsOverSites(answers.map(({ content: { deletions } }) => deletions)),
    },
    {
      names,
      ascent,
      readAs: model.fit === "accelerated" ? asTimes(point) : asTheyAre(point),
      level: confidence_level,
      correction: model.fit === "hazards" ? "people" : "parameters",
    },
  );
  const total = (count: "n" | "events"): number | null =>
    answers.reduce<number | null>((sum, { content: answer }) => {
      const own = answer[count];
      return sum === null || own === null ? null : sum + own;
    }, 0);
  return seal(
    {
      format: "pulley-outcomes round 1" as const,
      kind: "fit" as const,
      model,
      rounds: content.round + 1,
      point: content.sha256,
      sites: answers.map(({ content: { site, n, events, people, left_out, sha256: answer } }) => ({
        site,
        n,
        events,
        people,
        left_out,
        answer,
      })),
      n: total("n"),
      events: total("events"),
      people: sums.persons,
      confidence_level,
      converged: fit.converged,
      log_likelihood: fit.logLikelihood,
      intervals_take: "every person on their own, whatever the number of their injuries" as const,
      few_people: { correction: fit.correction, degrees_of_freedom: fit.degreesOfFreedom },
      revealed: { answers: content.round + 1, numbers: content.sent + numbersAskedBy(content) },
      parameters: fit.parameters.map((parameter, j) =>
        toldParameter(parameter, { j, sites: sites.length, model }),
      ),
    },
    sha256,
  );
}

function toldParameter(
  { name, coefficient, standardError, correctedStandardError, ratio }: RoundParameter,
  { j, sites, model }: { readonly j: number; readonly sites: number; readonly model: PointFile["model"] },
): FitParameter {
  const accelerated = model.fit === "accelerated";
  const isScale = accelerated && name === scaleName;
  const what = isScale ? "log_scale" : j < sites ? "intercept" : accelerated ? "time_ratio" : "hazard_ratio";
  const isRatio = what === "hazard_ratio" || what === "time_ratio";
  const fixed = isScale && model.law === "exponential";
  return {
    name: isScale ? "log of the scale" : name,
    what,
    coefficient: fixed ? 0 : coefficient,
    standard_error: standardError,
    clustered_standard_error: correctedStandardError,
    ratio: isRatio ? ratio.estimate : null,
    lower: isRatio ? ratio.lower : null,
    upper: isRatio ? ratio.upper : null,
    p: isRatio ? ratio.p : null,
    reason: fixed ? null : ratio.reason,
  };
}
