import {
  type NextPoint,
  nextPoint,
  type PooledSums,
  runningAway,
} from "../../statistics/pooling/rounds/ascent.js";
import { type SummedSites, sumOverSites } from "../../statistics/pooling/rounds/sum-over-sites.js";
import type { Plan } from "../../study/plan.js";
import { PoolingFileError } from "../pooling-file-error.js";
import { agreedPartOf } from "../summary/agreed.js";
import type { NamedPoint } from "./answer-point.js";
import { checkAnswers, type NamedAnswer } from "./check-answers.js";
import { fitFileOf } from "./fit-file.js";
import { mostRounds, numbersAskedBy, parameterNames, startOf } from "./fit-model.js";
import type { FitFile, FitModel, PointFile } from "./round-files.js";
import { type Sha256, seal } from "./seal.js";

/** How the coordinator wants the fit. */
export type FitKind =
  | { readonly fit: "hazards"; readonly ties: "efron" | "breslow" }
  | {
      readonly fit: "accelerated";
      readonly law: "weibull" | "exponential" | "log-normal" | "log-logistic";
    };

const format = "pulley-outcomes round 1" as const;

/** The first point of a fit. @throws PoolingFileError for a study that the fit cannot hold */
export function firstPoint(
  plan: Plan,
  {
    kind,
    smallestCell,
    sha256,
  }: { readonly kind: FitKind; readonly smallestCell: number; readonly sha256: Sha256 },
): PointFile {
  const model: FitModel = { ...kind, asked: agreedPartOf(plan) };
  return seal(
    {
      format,
      kind: "point" as const,
      model,
      smallest_cell: smallestCell,
      round: 0,
      asks: "sums" as const,
      parameters: parameterNames(model),
      ...startOf(model),
      sites: [],
      previous: null,
      sent: 0,
      ascent: null,
      maximum: null,
    },
    sha256,
  );
}

/**
 * What follows from the answers of all sites to a point: the next point, or after the last round the fit. The same files give the same bytes,
 * in whatever order the answers come.
 *
 * @throws PoolingFileError for an answer that is missing, twice there with other content, altered, or to another point; and where the fit does
 *   not come to a maximum
 */
export function proposePoint(
  point: NamedPoint,
  answers: readonly NamedAnswer[],
  sha256: Sha256,
): PointFile | FitFile {
  const inOrder = checkAnswers(point, answers);
  const { content } = point;
  const sums = summed(content, inOrder);
  if (content.asks !== "sums") {
    const fit = fitFileOf(content, { answers: inOrder, sums, sha256 });
    if (fit.converged) {
      const maximum = content.asks === "deletions" ? null : maximumFor(content, sums);
      return maximum === null ? fit : seal(pointOfDeletions(content, { answers: inOrder, maximum }), sha256);
    }
  }
  const next = nextPoint(content.ascent, { ...pooledAt(content, sums), positive: positiveOf(content, sums) });
  if (next.kind === "stalled" || content.round + 1 > mostRounds) throw noMaximum(point.file, content.round);
  return seal(pointAfter(content, { answers: inOrder, next }), sha256);
}

const hasIntercepts = ({ model }: PointFile): boolean => model.fit === "accelerated";

function summed(content: PointFile, answers: readonly NamedAnswer[]): SummedSites {
  return sumOverSites(
    answers.map(({ content: answer }) => ({
      persons: answer.people,
      logLikelihood: answer.log_likelihood,
      score: answer.score,
      information: answer.information,
      squares: answer.squares,
    })),
    hasIntercepts(content) ? "by-site" : "none",
  );
}

/** All parameters at the point: the intercepts of the sites in order, then the shared ones. */
function pooledAt(content: PointFile, { logLikelihood, score, information }: SummedSites): PooledSums {
  const own = score.length - content.shared.length;
  const intercepts = Array.from(
    { length: own },
    (_, site) => content.sites[site]?.intercept ?? content.intercept ?? 0,
  );
  return { point: [...intercepts, ...content.shared], logLikelihood, score, information };
}

/** 1 / scale stays above 0. */
const positiveOf = ({ model }: PointFile, { score }: SummedSites): number | null =>
  model.fit === "accelerated" ? score.length - 1 : null;

/** Sums of all sites where the deletion of people is asked about: in a fit of hazards with a finite maximum. */
function maximumFor({ model, ascent }: PointFile, { score, information }: SummedSites): PointFile["maximum"] {
  if (model.fit !== "hazards" || ascent === null || ascent.free.length === 0) return null;
  if (runningAway(ascent, information).length > 0) return null;
  return { score: [...score], information: information.map((row) => [...row]), free: [...ascent.free] };
}

/** The same point again, with the sums of all sites that a person's deletion is held against. */
function pointOfDeletions(
  content: PointFile,
  { answers, maximum }: { readonly answers: readonly NamedAnswer[]; readonly maximum: PointFile["maximum"] },
): Omit<PointFile, "sha256"> {
  const { sha256: _, ...same } = content;
  return {
    ...same,
    round: content.round + 1,
    asks: "deletions",
    sites: content.sites.map((one, site) => ({ ...one, answer: answers[site]!.content.sha256 })),
    previous: content.sha256,
    sent: content.sent + numbersAskedBy(content),
    maximum,
  };
}

function pointAfter(
  content: PointFile,
  {
    answers,
    next,
  }: {
    readonly answers: readonly NamedAnswer[];
    readonly next: Extract<NextPoint, { kind: "try" | "last" }>;
  },
): Omit<PointFile, "sha256"> {
  const own = next.point.length - content.shared.length;
  const { taken, step, part, free, first } = next.ascent;
  return {
    format,
    kind: "point",
    model: content.model,
    smallest_cell: content.smallest_cell,
    round: content.round + 1,
    asks: next.kind === "last" ? "squares" : "sums",
    parameters: content.parameters,
    shared: next.point.slice(own),
    intercept: null,
    sites: answers.map(({ content: answer }, site) => ({
      site: answer.site,
      rows: answer.rows,
      intercept: own === 0 ? null : next.point[site]!,
      answer: answer.sha256,
    })),
    previous: content.sha256,
    sent: content.sent + numbersAskedBy(content),
    maximum: null,
    ascent: {
      taken: {
        point: [...taken.point],
        logLikelihood: taken.logLikelihood,
        score: [...taken.score],
        information: taken.information.map((row) => [...row]),
      },
      step: [...step],
      part,
      free: [...free],
      first: [...first],
    },
  };
}

const noMaximum = (file: string, round: number): PoolingFileError =>
  new PoolingFileError({
    file,
    place: "round",
    problem: `after ${round + 1} rounds the likelihood has come to no maximum.`,
    correction:
      "A group or level in which nobody returned has no finite ratio: leave it out of the study file, or hold less equal, and begin again.",
  });
