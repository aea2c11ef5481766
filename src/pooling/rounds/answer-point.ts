import type { CohortTables } from "../../schema/cohort-tables.js";
import { counted } from "../../schema/counted.js";
import { canonicalText } from "../../schema/ordered-keys.js";
import type { Plan } from "../../study/plan.js";
import { PoolingFileError } from "../pooling-file-error.js";
import { type AgreedDifference, agreedDifferences, agreedPartOf } from "../summary/agreed.js";
import { checkMaximum, checkReturns } from "./check-sums.js";
import { mostRounds, startOf } from "./fit-model.js";
import type { AnswerFile, PointFile } from "./round-files.js";
import { type Sha256, seal } from "./seal.js";
import { deletionsOf, type SitePoint, type SiteRows, siteRows, spreadAt, sumsAt } from "./site-rows.js";
import { withoutSmallGroups } from "./small-groups.js";

/** A point file under its name. */
export interface NamedPoint {
  readonly file: string;
  readonly content: PointFile;
}

/** A site's data, and what it is called. */
export interface AnsweringSite {
  readonly site: string;
  readonly tables: CohortTables;
  readonly plan: Plan;
  /** The site's own smallest cell; that of the point file counts where it is the larger one. */
  readonly smallestCell?: number;
}

/** A ratio between two rows beyond which a sum over people says something of single ones. */
const mostSpread = Math.log(1e6);

/**
 * What a site answers to a point: log-likelihood, score and information of its rows there, and in the last rounds the summed squared scores of
 * its people and what their deletions change. No count of fewer people than the smallest cell is in it.
 *
 * @throws PoolingFileError where the study files differ, the site's data changed since the first round, the site has too few people or returns,
 *   or the point is such that the sums would say something of single people
 */
export function answerPoint(
  { file, content }: NamedPoint,
  { site, tables, plan, smallestCell = 1 }: AnsweringSite,
  sha256: Sha256,
): AnswerFile {
  const { model } = content;
  if (content.round > mostRounds)
    throw new PoolingFileError({
      file,
      place: "round",
      problem: `this is round ${content.round}; a fit that has no maximum after ${mostRounds} has none.`,
      correction: "This site does not answer. Ask the coordinator to begin again with fewer parameters.",
    });
  checkAsked(file, content, plan);
  const smallest = Math.max(content.smallest_cell, smallestCell);
  const rows = withoutSmallGroups(siteRows(tables, plan), { model, smallest });
  checkPath(file, content, rows);
  const people = checkPeople({ file, content }, rows, smallest);
  const known = content.sites.find((one) => one.site === site);
  checkKnown({ file, content }, site);
  const point: SitePoint = {
    shared: content.shared,
    intercept: known?.intercept ?? content.intercept,
  };
  checkSpread(file, spreadAt(rows, { model, point }));
  const fingerprint = fingerprintOf(rows, content, sha256);
  if (known !== undefined && known.rows !== fingerprint)
    throw new PoolingFileError({
      file,
      place: `sites, "${site}"`,
      problem:
        "the rows of this site are not those of the first round: its tables, its answers to queries, its study file or its smallest cell have changed.",
      correction:
        "Answer from the tables of the first round, or ask the coordinator to begin again with the new ones.",
    });
  const sums = sumsAt(rows, { model, point, squares: content.asks === "sums" ? "no" : "yes" });
  const { n, events } = sums;
  checkReturns(file, { n, events, people, smallest, model });
  const { maximum } = content;
  if (maximum !== null) checkMaximum(file, { maximum, own: sums });
  const isFew = (count: number): boolean => count > 0 && count < smallest;
  return seal(
    {
      format: "pulley-outcomes round 1" as const,
      kind: "answer" as const,
      site,
      round: content.round,
      answers: content.sha256,
      rows: fingerprint,
      n: isFew(n - people) ? null : n,
      events: isFew(events) || isFew(n - events) ? null : events,
      people,
      left_out: isFew(rows.leftOut) ? null : rows.leftOut,
      log_likelihood: sums.logLikelihood,
      score: [...sums.score],
      information: symmetric(sums.information),
      squares: sums.squares === null ? null : symmetric(sums.squares),
      deletions: maximum === null ? null : deletionsOf(rows, { model, shared: content.shared, maximum }),
    },
    sha256,
  );
}

/** A matrix that is symmetric but for rounding, as one that is. */
const symmetric = (matrix: readonly (readonly number[])[]): number[][] =>
  matrix.map((row, j) => row.map((value, k) => (j <= k ? value : matrix[k]![j]!)));

/** Fingerprint of the sums where the fit began: they were sent in the first round, so it tells nothing new. */
function fingerprintOf(rows: SiteRows, { model }: PointFile, sha256: Sha256): string {
  return sha256(canonicalText(sumsAt(rows, { model, point: startOf(model), squares: "no" })));
}

function checkAsked(file: string, { model }: PointFile, plan: Plan): void {
  const differing = agreedDifferences(model.asked, agreedPartOf(plan));
  if (differing.length === 0) return;
  throw new PoolingFileError({
    file,
    place: "model.asked",
    problem: `the study file of this site asks something else: ${differing.map(saidDifference).join("; ")}.`,
    correction: "Give the site's study file the values of the agreed one in these keys.",
  });
}

const saidDifference = ({ key, one, other }: AgreedDifference): string =>
  `${key} is ${other ?? "not there"}, and ${one ?? "not there"} in the point file`;

function checkPath(file: string, { model }: PointFile, { between }: SiteRows): void {
  if (!between || model.fit === "accelerated") return;
  throw new PoolingFileError({
    file,
    place: "model.fit",
    problem:
      "the returns of this site are known only between visits, and a hazards regression needs each on its day.",
    correction:
      'Ask the coordinator for an accelerated fit (round --model accelerated), or agree on "inexact_returns: on_one_day" in all study files.',
  });
}

/** @returns the number of different people */
function checkPeople({ file, content }: NamedPoint, { records }: SiteRows, smallest: number): number {
  const people = new Set(records.map(({ person }) => person)).size;
  const parameters = content.parameters.length + (content.model.fit === "accelerated" ? 1 : 0);
  const fewest = parameters + smallest;
  if (people >= fewest) return people;
  throw new PoolingFileError({
    file,
    problem: `this site has ${counted(people, "person", "people")} for the fit, those in groups of fewer than ${smallest} people not counted; with ${counted(parameters, "parameter", "parameters")} and a smallest cell of ${smallest} it takes ${fewest}, or the sums could tell of single people.`,
    correction: "This site does not answer. The others can go on without it.",
  });
}

function checkKnown({ file, content }: NamedPoint, site: string): void {
  if (content.round === 0 || content.sites.some((one) => one.site === site)) return;
  throw new PoolingFileError({
    file,
    place: "sites",
    problem: `"${site}" is not among the sites of this fit (${content.sites.map((one) => one.site).join(", ")}).`,
    correction:
      "Name the site as in the first round (--site), or ask the coordinator to begin again with it.",
  });
}

function checkSpread(file: string, spread: number): void {
  if (spread <= mostSpread) return;
  throw new PoolingFileError({
    file,
    place: "shared",
    problem:
      "at this point one person of this site would weigh more than a million times another, so that the sums would tell of single people.",
    correction:
      "This site does not answer. Ask the coordinator whether the point is the one that was proposed, or for a fit with fewer parameters.",
  });
}
