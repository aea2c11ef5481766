import { createHash } from "node:crypto";
import {
  type AnswerFile,
  answerPoint,
  type FitFile,
  type FitKind,
  firstPoint,
  type PointFile,
  proposePoint,
} from "../../../../src/pooling/rounds/index.js";
import type { Plan } from "../../../../src/study/index.js";
import type { DrawnSite } from "../drawn-sites.js";

export const sha256 = (content: string): string => createHash("sha256").update(content).digest("hex");

export const smallestCell = 5;

export const named = <Content extends { readonly round: number; readonly site?: string }>(
  content: Content,
) => ({
  file: `${content.site ?? "point"}-${content.round}.json`,
  content,
});

export const answersOf = (point: PointFile, sites: readonly DrawnSite[], plan: Plan): AnswerFile[] =>
  sites.map(({ site, tables }) => answerPoint(named(point), { site, tables, plan }, sha256));

export interface Driven {
  readonly points: readonly PointFile[];
  readonly answers: readonly (readonly AnswerFile[])[];
  readonly fit: FitFile;
}

/** A fit from its first point to the end, as if each file had been sent. */
export function driven(sites: readonly DrawnSite[], plan: Plan, kind: FitKind): Driven {
  const points: PointFile[] = [firstPoint(plan, { kind, smallestCell, sha256 })];
  const answers: AnswerFile[][] = [];
  for (;;) {
    const point = points.at(-1)!;
    const own = answersOf(point, sites, plan);
    answers.push(own);
    const next = proposePoint(named(point), own.map(named), sha256);
    if (next.kind === "fit") return { points, answers, fit: next };
    points.push(next);
  }
}
