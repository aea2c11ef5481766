import { nextPoint } from "../../../../src/statistics/pooling/rounds/ascent.js";
import {
  asTheyAre,
  asTimes,
  fitOfRounds,
  type RoundFit,
} from "../../../../src/statistics/pooling/rounds/fit-of-rounds.js";
import type { SiteSums } from "../../../../src/statistics/pooling/rounds/index.js";
import {
  deletionsOverSites,
  type SiteIntercepts,
  sumOverSites,
} from "../../../../src/statistics/pooling/rounds/sum-over-sites.js";

type Point = readonly number[];

/** What a site sends: sums over its rows at a point, and what the deletion of its people changes there. */
export interface Answering<Rows> {
  readonly sums: (own: Rows, point: number[], squares: "yes" | "no") => SiteSums;
  readonly deletions?: (
    own: Rows,
    all: { point: Point; score: readonly number[]; information: readonly (readonly number[])[] },
  ) => readonly (readonly number[])[] | null;
}

export interface Climb<Rows> {
  readonly sites: readonly Rows[];
  readonly start: readonly number[];
  readonly names: readonly string[];
  readonly intercepts: SiteIntercepts;
  readonly positive: number | null;
}

/** From a start to the maximum, with nothing but what each site sends. @throws Error where there is none after 60 rounds */
export function climbed<Rows>(answering: Answering<Rows>, fit: Climb<Rows>): RoundFit {
  const { sites, intercepts, positive, names } = fit;
  const byOwn = intercepts === "by-site";
  const pointOf = (point: Point, i: number) =>
    byOwn ? [point[i]!, ...point.slice(sites.length)] : [...point];
  const sumsAt = (point: Point, squares: "yes" | "no") =>
    sumOverSites(
      sites.map((own, i) => answering.sums(own, pointOf(point, i), squares)),
      intercepts,
    );
  let point: Point = fit.start;
  let ascent = null;
  for (let round = 0; round < 60; round++) {
    const { logLikelihood, score, information } = sumsAt(point, "no");
    const next = nextPoint(ascent, { point, logLikelihood, score, information, positive });
    if (next.kind === "stalled") break;
    ({ point, ascent } = next);
    if (next.kind === "try") continue;
    const last = sumsAt(point, "yes");
    const deletions = answering.deletions
      ? deletionsOverSites(sites.map((own) => answering.deletions!(own, { ...last, point })))
      : null;
    return fitOfRounds(
      { ...last, point, squares: last.squares!, deletions },
      {
        names,
        ascent,
        readAs: byOwn ? asTimes(point) : asTheyAre(point),
        level: 0.95,
        correction: byOwn ? "parameters" : "people",
      },
    );
  }
  throw new Error("no maximum");
}
