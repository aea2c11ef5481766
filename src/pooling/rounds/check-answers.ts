import { PoolingFileError } from "../pooling-file-error.js";
import type { NamedPoint } from "./answer-point.js";
import type { AnswerFile } from "./round-files.js";

/** An answer under the name of its file. */
export interface NamedAnswer {
  readonly file: string;
  readonly content: AnswerFile;
}

const askAgain = "Ask the site to answer this point file, and name its new answer.";

/** @throws PoolingFileError for an answer to another point */
function checkAnswered({ content: point }: NamedPoint, { file, content }: NamedAnswer): void {
  const fault = (place: string, problem: string) =>
    new PoolingFileError({ file, place, problem, correction: askAgain });
  if (content.round !== point.round)
    throw fault(
      "round",
      `this answers round ${content.round}; the point file is that of round ${point.round}.`,
    );
  if (content.answers !== point.sha256)
    throw fault("answers", "this answers another point than that of the point file.");
  const size = point.shared.length + (point.model.fit === "accelerated" ? 1 : 0);
  if (content.score.length !== size)
    throw fault("score", `${content.score.length} entries where the fit has ${size} parameters of a site.`);
  if (point.asks !== "sums" && content.squares === null)
    throw fault("squares", "this round asks for the squared scores of the people, and there are none.");
  const free = point.maximum?.free.length ?? 0;
  if (content.deletions !== null && content.deletions.length !== free)
    throw fault(
      "deletions",
      `${content.deletions.length} entries where the fit has ${free} parameters with a number.`,
    );
}

/** @throws PoolingFileError for a site whose rows changed since the first round, or that is none of the fit's */
function checkSite({ content: point }: NamedPoint, { file, content }: NamedAnswer): void {
  if (point.round === 0) return;
  const known = point.sites.find(({ site }) => site === content.site);
  if (known === undefined)
    throw new PoolingFileError({
      file,
      place: "site",
      problem: `"${content.site}" did not answer the first round, so it is not among the sites of this fit.`,
      correction: "Leave it out, or begin again with all sites.",
    });
  if (known.rows !== content.rows)
    throw new PoolingFileError({
      file,
      place: "rows",
      problem: `the rows of "${content.site}" are not those of the first round.`,
      correction:
        "Ask the site to answer from the tables of the first round, or begin again with the new ones.",
    });
}

/**
 * The answers to a point, one a site, in order of the sites' names. The same answer twice is one.
 *
 * @throws PoolingFileError naming the file at fault; naming the point file where a site has not answered
 */
export function checkAnswers(point: NamedPoint, answers: readonly NamedAnswer[]): readonly NamedAnswer[] {
  const bySite = new Map<string, NamedAnswer>();
  for (const answer of answers) {
    checkAnswered(point, answer);
    checkSite(point, answer);
    const other = bySite.get(answer.content.site);
    if (other !== undefined && other.content.sha256 !== answer.content.sha256)
      throw new PoolingFileError({
        file: answer.file,
        place: "site",
        problem: `"${answer.content.site}" has another answer to this point in ${other.file}.`,
        correction: "Keep the one that the site stands by, and leave the other out.",
      });
    if (other === undefined) bySite.set(answer.content.site, answer);
  }
  const missing = point.content.sites.filter(({ site }) => !bySite.has(site)).map(({ site }) => site);
  if (missing.length > 0 || bySite.size === 0)
    throw new PoolingFileError({
      file: point.file,
      place: "sites",
      problem:
        bySite.size === 0
          ? "no site has answered this point."
          : `these sites have not answered this point: ${missing.join(", ")}.`,
      correction:
        point.content.round === 0
          ? "Name the answers of the sites after the point file."
          : "Name the answers of all sites after the point file. Where a site drops out, go on from the first point file with the first answers of the others, under another name (--into), and send them the new point.",
    });
  return [...bySite.values()].sort((a, b) =>
    a.content.site < b.content.site ? -1 : a.content.site > b.content.site ? 1 : 0,
  );
}
