import { atRiskAt } from "../risk-sets.js";
import type { Cell } from "../standardised-cells.js";
import type { ShareFigure } from "../standardised-shares.js";

/** What is supposed of those lost: by how much their hazard of the event is multiplied from their loss on. */
export interface Supposed {
  readonly time: number;
  /** 0: none of them has the event; Infinity: all of them have it by the time. */
  readonly factor: number;
}

/** Rows of one group sorted once, with how many were lost at each time. */
export interface LossCell extends Cell {
  /** Of each row, 1 where it was lost. */
  readonly isLost: ArrayLike<number>;
  readonly lost: Float64Array;
}

/** @param lost one entry for each row of the columns that the cell is a part of */
export function lossCellOf({ rows, prepared }: Cell, lost: ArrayLike<number>): LossCell {
  const { times, rowTime } = prepared.riskSets;
  const isLost = Uint8Array.from(rows, (row) => lost[row]!);
  const counts = new Float64Array(times.length);
  for (let row = 0; row < isLost.length; row++) counts[rowTime[row]!]! += isLost[row]!;
  return { rows, prepared, isLost, lost: counts };
}

/** Chances at one time: of those followed, and of those lost before. */
interface Chances {
  readonly back: number;
  readonly other: number;
  /** Of those followed who had neither. */
  readonly loss: number;
  readonly lostBack: number;
  readonly lostOther: number;
}

function chancesAt({ prepared, lost }: LossCell, at: number, factor: number): Chances {
  const { riskSets, own, competing } = prepared;
  const n = riskSets.atRisk[at]!;
  const back = own[at]! / n;
  const other = (competing?.[at] ?? 0) / n;
  const left = n - riskSets.events[at]!;
  const loss = left > 0 ? lost[at]! / left : 0;
  const lostBack = raised(back, factor);
  // a competing end is possible for those who do not return that day
  const lostOther = back < 1 ? (other * (1 - lostBack)) / (1 - back) : 0;
  return { back, other, loss, lostBack, lostOther };
}

/** The chance of a day whose hazard is multiplied: 1 - (1 - h)^factor, the hazard being one of continuous time. */
function raised(chance: number, factor: number): number {
  if (factor === 1 || chance === 0) return chance;
  if (factor === 0) return 0;
  return chance >= 1 ? 1 : -Math.expm1(factor * Math.log1p(-chance));
}

/** What of the share moves with a chance at one time, and the chances there. */
interface Slopes {
  readonly back: number;
  readonly other: number;
  readonly loss: number;
}

interface Course {
  readonly share: number;
  /** Of each time up to the one asked for. */
  readonly chances: readonly Chances[];
  readonly slopes: readonly Slopes[];
  /** Shares still followed, and lost and without an end, after the last of these times. */
  readonly followed: number;
  readonly lost: number;
}

/**
 * The share that has had the event, as a walk through four states (followed, lost, back, ended otherwise) by the chances of each time, and its
 * derivatives: forwards what is in each state, backwards what of it comes to the event by the time asked for.
 */
function courseOf(cell: LossCell, { time, factor }: Supposed): Course {
  const { times } = cell.prepared.riskSets;
  const chances: Chances[] = [];
  for (let i = 0; i < times.length && times[i]! <= time; i++) chances.push(chancesAt(cell, i, factor));
  const states = statesBefore(chances);
  const slopes = new Array<Slopes>(chances.length);
  let ofFollowed = 0;
  let ofLost = 0;
  for (let i = chances.length - 1; i >= 0; i--) {
    const { back, other, loss, lostBack, lostOther } = chances[i]!;
    const { followed, lost } = states[i]!;
    const afterLoss = factor === Number.POSITIVE_INFINITY ? (times[i]! < time ? 1 : 0) : ofLost;
    const on = (1 - loss) * ofFollowed + loss * afterLoss;
    // how the lost move with the chances of those followed; where everybody returned that day the chance cannot vary
    const rate =
      back < 1 && factor > 0 && factor < Number.POSITIVE_INFINITY
        ? (factor * (1 - lostBack)) / (1 - back)
        : 0;
    const perOther = back < 1 ? (1 - lostBack) / (1 - back) : 0;
    const otherByBack = back < 1 ? (other * (perOther - rate)) / (1 - back) : 0;
    const isIn = factor < Number.POSITIVE_INFINITY;
    slopes[i] = {
      back: followed * (1 - on) + (isIn ? lost * (rate - (rate + otherByBack) * ofLost) : 0),
      other: -followed * on - (isIn ? lost * perOther * ofLost : 0),
      loss: followed * (1 - back - other) * (afterLoss - ofFollowed),
    };
    ofFollowed = back + (1 - back - other) * on;
    ofLost = lostBack + (1 - lostBack - lostOther) * ofLost;
  }
  const { followed, lost } = states.at(-1)!;
  return { share: ofFollowed, chances, slopes, followed, lost };
}

/** Shares followed, and lost and without an end, before each time and after the last. */
function statesBefore(chances: readonly Chances[]): { readonly followed: number; readonly lost: number }[] {
  const states = [{ followed: 1, lost: 0 }];
  for (const { back, other, loss, lostBack, lostOther } of chances) {
    const { followed, lost } = states.at(-1)!;
    const left = followed * Math.max(0, 1 - back - other);
    states.push({
      followed: left * (1 - loss),
      lost: left * loss + lost * Math.max(0, 1 - lostBack - lostOther),
    });
  }
  return states;
}

/** A share under a supposition, with what its limits are taken from. */
export interface LossFigure extends ShareFigure {
  /** Whether nobody is left of whom it is not known by the time asked for, which may lie beyond the last follow-up. */
  readonly isKnown: boolean;
}

export function lossFigure(cell: LossCell, supposed: Supposed): LossFigure {
  const { prepared } = cell;
  const { riskSets, own, competing } = prepared;
  const { time, factor } = supposed;
  const course = courseOf(cell, supposed);
  const last = riskSets.times.at(-1) ?? -1;
  const isSettled = factor === 0 || factor === Number.POSITIVE_INFINITY || course.lost === 0;
  let settled = 0;
  for (let i = 0; i < course.chances.length; i++)
    settled += (competing?.[i] ?? 0) + (factor === 0 && riskSets.times[i]! < time ? cell.lost[i]! : 0);
  return {
    value: Math.min(1, Math.max(0, course.share)),
    variance: varianceOf(cell, course),
    influences: () => influencesOf(cell, course),
    atRisk: atRiskAt({ ...riskSets, events: own, competing }, time),
    settled,
    isKnown: time <= last || (riskSets.n > 0 && course.followed === 0 && isSettled),
  };
}

/** Multinomial variance of the ends at each time, and binomial of the losses among those who had none. */
function varianceOf({ prepared }: LossCell, { chances, slopes }: Course): number {
  const { atRisk, events } = prepared.riskSets;
  let variance = 0;
  for (let i = 0; i < chances.length; i++) {
    const { back, other, loss } = chances[i]!;
    const by = slopes[i]!;
    const n = atRisk[i]!;
    const mean = by.back * back + by.other * other;
    const none = Math.max(0, 1 - back - other);
    // squares about the mean, each with its chance: never negative
    variance += (back * (by.back - mean) ** 2 + other * (by.other - mean) ** 2 + none * mean ** 2) / n;
    if (loss > 0) variance += (by.loss ** 2 * loss * (1 - loss)) / (n - events[i]!);
  }
  return variance;
}

/** What each row adds to the share: the derivative by its weight. */
function influencesOf({ prepared, isLost }: LossCell, { chances, slopes }: Course): Float64Array {
  const { riskSets, ends } = prepared;
  const { atRisk, events, rowTime, rowStart, n: rows } = riskSets;
  const count = chances.length;
  const atAnyTime = new Float64Array(riskSets.times.length + 1);
  const byEnd = Array.from({ length: count }, () => [0, 0, 0, 0]);
  for (let i = 0; i < count; i++) {
    const { back, other, loss } = chances[i]!;
    const by = slopes[i]!;
    const n = atRisk[i]!;
    const left = n - events[i]!;
    const mean = (by.back * back + by.other * other) / n;
    const ofLoss = left > 0 ? by.loss / left : 0;
    // only who had no end at this time could be lost at it
    byEnd[i] = [0, by.back / n + loss * ofLoss, by.other / n + loss * ofLoss, ofLoss];
    atAnyTime[i + 1] = atAnyTime[i]! - mean - loss * ofLoss;
  }
  atAnyTime.fill(atAnyTime[count]!, count + 1);
  const moved = new Float64Array(rows);
  for (let row = 0; row < rows; row++) {
    const at = rowTime[row]!;
    const start = rowStart ? atAnyTime[Math.min(rowStart[row]!, count)]! : 0;
    const end = at < count ? byEnd[at]![isLost[row] === 1 ? 3 : ends[row]!]! : 0;
    moved[row] = atAnyTime[at + 1]! - start + end;
  }
  return moved;
}
