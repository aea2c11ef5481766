import { logTailOf, parametersOf, piecesFor } from "../curves-of-ends.js";
import type { Piece } from "../end-model.js";
import type { Pattern } from "../patterns.js";
import { type GroupOutputs, gradientsBy, type Moved, type Outputs } from "../standardised-outputs.js";
import type { VisitModels } from "../visit-models.js";
import type { LossParts } from "../visit-variances.js";
import { type LossOfCell, lossOfCell } from "./loss-of-cell.js";
import { type Hazards, walkAfterLoss } from "./walk.js";

/** Shares of one group, one a factor, with what their variance needs. */
export interface SharesAtFactors {
  readonly of: GroupOutputs;
  readonly loss: LossParts;
}

export type SharesAt = (factors: readonly number[]) => SharesAtFactors;

export interface GroupAsked {
  readonly prepared: VisitModels;
  readonly patterns: readonly Pattern[];
  /** Of each row, the place of its cell. */
  readonly cells: ArrayLike<number>;
  readonly lost: ArrayLike<number>;
  readonly group: number;
  readonly time: number;
}

/** Steps of the walk besides those that the days of the losses make. */
const panels = 96;

/** A cell's losses, each at its knot. */
interface CellAtKnots extends LossOfCell {
  readonly places: Int32Array;
  /** Chance of loss at every knot. */
  readonly loss: Float64Array;
}

/** A pattern's hazards over the steps, and how they move with the parameters of each piece. */
interface PatternCourse extends Pattern {
  readonly hazards: Hazards;
  readonly gradients: ReadonlyMap<Piece, readonly Hazards[]>;
}

/** The shares of a group after loss: everybody's covariates set under it, the losses of each cell those seen in the group. */
export function groupAfterLoss(asked: GroupAsked): SharesAt {
  const { prepared, patterns, cells, group, time } = asked;
  const { visits } = prepared;
  const rows = Array.from({ length: visits.n }, (_, row) => row).filter((row) => visits.group[row] === group);
  const found = [...new Set(patterns.map(({ cell }) => cell))].map((cell) => ({
    cell,
    own: lossOfCell({
      ...prepared,
      ...asked,
      rows: rows.filter((row) => cells[row] === cell),
    }),
  }));
  const knots = Float64Array.from(
    new Set([
      0,
      time,
      ...found.flatMap(({ own }) => [...own.days]),
      ...Array.from({ length: panels }, (_, i) => (time * (i + 1)) / panels),
    ]),
  ).sort();
  const cellsAt = new Map(found.map(({ cell, own }) => [cell, atKnots(own, knots)]));
  const courses = patterns.map((pattern) => courseOf(pattern, { prepared, group, knots }));
  return (factors) => sharesOf({ courses, cells: cellsAt }, factors);
}

function atKnots(own: LossOfCell, knots: Float64Array): CellAtKnots {
  const places = Int32Array.from(own.days, (day) => knots.indexOf(day));
  const loss = new Float64Array(knots.length);
  places.forEach((place, m) => {
    loss[place] = own.chances[m]!;
  });
  return { ...own, places, loss };
}

interface CourseAsked {
  readonly prepared: VisitModels;
  readonly group: number;
  readonly knots: Float64Array;
}

function courseOf(pattern: Pattern, { prepared, group, knots }: CourseAsked): PatternCourse {
  const { models, end } = prepared;
  const own = models.findIndex((model) => model.end === end);
  const pieces = piecesFor(models, group);
  const steps = knots.length - 1;
  /** Hazards of the end asked about over the steps, then those of the others. */
  const both = (moved?: Moved): Float64Array => {
    const hazards = new Float64Array(2 * steps);
    pieces.forEach((piece, at) => {
      if (piece === undefined) return;
      const parameters = moved?.piece === piece ? moved.parameters : parametersOf(piece);
      const log = logTailOf(piece, { parameters, group, covariates: pattern.values });
      const curve = knots.map((time) => Math.max(leastLog, log(time)));
      const from = at === own ? 0 : steps;
      for (let k = 0; k < steps; k++) hazards[from + k]! += curve[k]! - curve[k + 1]!;
    });
    return hazards;
  };
  const parted = (hazards: Float64Array): Hazards => ({
    own: hazards.subarray(0, steps),
    others: hazards.subarray(steps),
  });
  const gradients = new Map(
    pieces
      .filter((piece) => piece !== undefined)
      .map((piece): [Piece, Hazards[]] => [
        piece,
        gradientsBy(piece, { size: 2 * steps, outputsAt: both }).map(parted),
      ]),
  );
  return { ...pattern, hazards: parted(both()), gradients };
}

/** Logarithm of a share that is none any more; below it differences of logarithms say nothing. */
const leastLog = -700;

interface Scene {
  readonly courses: readonly PatternCourse[];
  readonly cells: ReadonlyMap<number, CellAtKnots>;
}

function sharesOf({ courses, cells }: Scene, factors: readonly number[]): SharesAtFactors {
  const size = factors.length;
  const outputs = new Float64Array(size);
  const shares = courses.map(() => new Float64Array(size));
  const slopes = new Map([...cells.keys()].map((cell) => [cell, factors.map(() => new Float64Array(0))]));
  const gradients = new Map<Piece, Outputs[]>();
  const add = (piece: Piece, j: number, o: number, by: number): void => {
    const own = gradients.get(piece) ?? [];
    gradients.set(piece, own);
    own[j] ??= new Float64Array(size);
    own[j]![o]! += by;
  };
  factors.forEach((factor, o) => {
    for (const [p, { hazards, gradients: moves, share, cell }] of courses.entries()) {
      const { loss, places } = cells.get(cell)!;
      const walked = walkAfterLoss({ ...hazards, loss }, factor);
      shares[p]![o] = walked.share;
      outputs[o]! += share * walked.share;
      for (const [piece, list] of moves)
        list.forEach(({ own, others }, j) => {
          add(piece, j, o, share * (dot(walked.byOwn, own) + dot(walked.byOthers, others)));
        });
      const slope = slopes.get(cell)!;
      if (slope[o]!.length !== places.length) slope[o] = new Float64Array(places.length);
      places.forEach((place, m) => {
        slope[o]![m]! += share * walked.byLoss[place]!;
      });
    }
    for (const [cell, { gradients: moves }] of cells)
      for (const [piece, list] of moves)
        list.forEach((own, j) => {
          add(piece, j, o, dot(slopes.get(cell)![o]!, own));
        });
  });
  return {
    of: { outputs, gradients, byPattern: shares.map((own) => own.map((share, o) => share - outputs[o]!)) },
    loss: lossParts({ cells, slopes, size }),
  };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

/** What the chances of loss add to the variance: binomial, or row by row. */
function lossParts({
  cells,
  slopes,
  size,
}: Pick<Scene, "cells"> & {
  readonly slopes: ReadonlyMap<number, readonly Float64Array[]>;
  readonly size: number;
}): LossParts {
  const variance = new Float64Array(size);
  for (const [cell, { chances, atRisk }] of cells)
    slopes.get(cell)!.forEach((slope, o) => {
      chances.forEach((chance, m) => {
        variance[o]! += (slope[m]! ** 2 * chance * Math.max(0, 1 - chance)) / atRisk[m]!;
      });
    });
  return {
    variance,
    ofRow: (row) => {
      const moved = new Float64Array(size);
      for (const [cell, { influence }] of cells) {
        const own = influence(row);
        if (own === null) continue;
        for (const [o, slope] of slopes.get(cell)!.entries()) moved[o] = dot(slope, own);
      }
      return moved;
    },
  };
}
