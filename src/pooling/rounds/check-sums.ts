import { counted } from "../../schema/counted.js";
import { factorOver } from "../../statistics/linear/newton.js";
import { factorSymmetric, solveFactored } from "../../statistics/linear/symmetric.js";
import type { SiteSums } from "../../statistics/pooling/rounds/index.js";
import { PoolingFileError } from "../pooling-file-error.js";
import type { FitModel } from "./round-files.js";
import type { Maximum } from "./site-rows.js";

/** In a site of fewer people than this many smallest cells, that all are back or none is not told: our choice, as in summaries. */
const cellsForAllAlike = 2;

/** @throws PoolingFileError where so few returned that the sums would be over these, or where all of a small site came to the same */
export function checkReturns(
  file: string,
  site: {
    readonly n: number;
    readonly events: number;
    readonly people: number;
    readonly smallest: number;
    readonly model: FitModel;
  },
): void {
  const { n, events, people, smallest, model } = site;
  const silent = (problem: string) =>
    new PoolingFileError({
      file,
      problem,
      correction: "This site does not answer. The others can go on without it.",
    });
  if (events === 0 && model.fit === "hazards")
    throw silent("nobody has returned at this site, so it has nothing to say in a fit of hazards.");
  if (events > 0 && events < smallest)
    throw silent(
      `this site has ${counted(events, "return", "returns")} for the fit; with a smallest cell of ${smallest} it takes ${smallest}, or the sums could tell of single people.`,
    );
  if (people < cellsForAllAlike * smallest && (events === 0 || events === n))
    throw silent(
      `${events === 0 ? "nobody has" : "all have"} returned among the ${counted(people, "person", "people")} of this site: the sums would tell the outcome of each of them.`,
    );
}

/** Squared length of a step, in standard errors, beyond which a point is not the maximum. */
const noMaximumAbove = 1e-6;

/**
 * Sums over all sites that cannot be: the information of the others would be negative, or the point is no maximum. With such sums the change by
 * a deletion could be made to tell of one person.
 *
 * @throws PoolingFileError for them
 */
export function checkMaximum(
  file: string,
  { maximum, own }: { readonly maximum: Maximum; readonly own: SiteSums },
): void {
  const { score, information, free } = maximum;
  const size = score.length;
  const all = Float64Array.from(information.flat());
  const isSquare = size === own.score.length && information.every((row) => row.length === size);
  const places =
    isSquare && free.length > 0 && free.every((j) => j < size) && new Set(free).size === free.length;
  const factor = places ? factorOver(all, free) : null;
  const step = factor === null ? null : solveFactored(factor, Float64Array.from(score));
  const left = step?.reduce((sum, value, j) => sum + value * score[j]!, 0) ?? Number.NaN;
  const isTop = factor?.kept.length === free.length && left >= 0 && left < noMaximumAbove;
  if (isTop && areOthersPossible(maximum, own)) return;
  throw new PoolingFileError({
    file,
    place: "maximum",
    problem: "the sums of all sites do not go with this point and the sums of this site.",
    correction:
      "This site does not answer. Ask the coordinator for the point file as pulley-outcomes round has written it.",
  });
}

/** Whether the information of all less this site's own is that of some rows: none of its directions is negative, but for rounding. */
function areOthersPossible({ information, free }: Maximum, { information: own }: SiteSums): boolean {
  const size = free.length;
  const rest = new Float64Array(size * size);
  free.forEach((j, at) => {
    free.forEach((k, across) => {
      const scale = Math.sqrt(Math.abs(information[j]![j]! * information[k]![k]!));
      rest[at * size + across] = (information[j]![k]! - own[j]![k]!) / scale + (at === across ? 1e-7 : 0);
    });
  });
  return factorSymmetric(rest, { size, tolerance: 0 }).kept.length === size;
}
