import type { SummedTies } from "../../hazards/layout/ties.js";
import { type Evaluator, emptyLikelihood, type Likelihood } from "../../linear/log-likelihood.js";
import type { CountedProfiles, StratumOfProfiles } from "./counted-profiles.js";

/**
 * Sums over the denominators s0 (1 - f c) of a time with d events, c being the events' part of the risk: f = 0 d times under Breslow,
 * f = 0, 1 / d, ... under Efron.
 */
interface Denominators {
  /** Of log(1 - f c). */
  logs: number;
  /** Of 1 / (1 - f c), and the same times f. */
  first: number;
  firstTaken: number;
  /** Of f / (1 - f c) and of f^2 / (1 - f c)^2. */
  secondTaken: number;
}

function fillDenominators(sums: Denominators, time: { d: number; c: number; ties: SummedTies }): void {
  const { d, c, ties } = time;
  sums.logs = sums.firstTaken = sums.secondTaken = 0;
  sums.first = d;
  if (ties === "breslow" || d === 1) return;
  sums.first = 0;
  for (let q = 0; q < d; q++) {
    const f = q / d;
    const left = 1 - f * c;
    const taken = f / left;
    sums.logs += Math.log(left);
    sums.first += 1 / left;
    sums.firstTaken += taken;
    sums.secondTaken += taken * taken;
  }
}

/** Room for one risk set, counted from its own largest log hazard and its own mean covariates. */
interface Work {
  readonly risk: Float64Array;
  readonly eventRisk: Float64Array;
  readonly mean: Float64Array;
  readonly part: Float64Array;
  readonly eventSum: Float64Array;
  readonly apart: Float64Array;
  readonly sums: Denominators;
}

const workFor = ({ rows, strata }: CountedProfiles): Work => {
  const most = strata.reduce((largest, { profiles }) => Math.max(largest, profiles.length), 0);
  return {
    risk: new Float64Array(most),
    eventRisk: new Float64Array(most),
    mean: new Float64Array(rows.size),
    part: new Float64Array(rows.size),
    eventSum: new Float64Array(rows.size),
    apart: new Float64Array(rows.size),
    sums: { logs: 0, first: 0, firstTaken: 0, secondTaken: 0 },
  };
};

/** Fills the risks of a time. @returns events, sum of the risks and of the events' risks, and the events' sum of log hazards */
function fillRisks(
  { risk, eventRisk }: Work,
  { stratum, at, eta }: { stratum: StratumOfProfiles; at: number; eta: Float64Array },
) {
  const { profiles, atRisk, events } = stratum;
  const from = at * profiles.length;
  let largest = Number.NEGATIVE_INFINITY;
  for (let p = 0; p < profiles.length; p++)
    if (atRisk[from + p]! > 0) largest = Math.max(largest, eta[profiles[p]!]!);
  let [d, s0, ofEvents, logs] = [0, 0, 0, 0];
  for (let p = 0; p < profiles.length; p++) {
    const n = atRisk[from + p]!;
    const own = events[from + p]!;
    const beyond = eta[profiles[p]!]! - largest;
    const ratio = n > 0 ? Math.exp(beyond) : 0;
    risk[p] = n * ratio;
    eventRisk[p] = own * ratio;
    d += own;
    s0 += risk[p]!;
    ofEvents += eventRisk[p]!;
    if (own > 0) logs += own * beyond;
  }
  return { d, s0, ofEvents, logs };
}

/** Adds one time of one stratum. */
function addTime(
  into: Likelihood,
  work: Work,
  time: {
    readonly counted: CountedProfiles;
    readonly stratum: StratumOfProfiles;
    readonly at: number;
    readonly eta: Float64Array;
    readonly ties: SummedTies;
  },
): void {
  const { stratum, counted } = time;
  const { x, size } = counted.rows;
  const { risk, eventRisk, mean, part, eventSum, apart, sums } = work;
  const { d, s0, ofEvents, logs } = fillRisks(work, time);
  fillDenominators(sums, { d, c: ofEvents / s0, ties: time.ties });
  into.logLikelihood += logs - d * Math.log(s0) - sums.logs;
  const { profiles } = stratum;
  const from = time.at * profiles.length;
  for (let j = 0; j < size; j++) {
    const column = x[j]!;
    let sum = 0;
    for (let p = 0; p < profiles.length; p++) sum += risk[p]! * column[profiles[p]!]!;
    mean[j] = sum / s0;
    part[j] = eventSum[j] = 0;
  }
  const { score, information } = into;
  for (let p = 0; p < profiles.length; p++) {
    if (risk[p] === 0) continue;
    for (let j = 0; j < size; j++) {
      const own = x[j]![profiles[p]!]! - mean[j]!;
      apart[j] = own;
      part[j]! += (eventRisk[p]! / s0) * own;
      eventSum[j]! += stratum.events[from + p]! * own;
    }
    const weight = (risk[p]! * sums.first - eventRisk[p]! * sums.firstTaken) / s0;
    for (let j = 0; j < size; j++)
      for (let k = 0; k <= j; k++) information[j * size + k]! += weight * apart[j]! * apart[k]!;
  }
  for (let j = 0; j < size; j++) {
    score[j]! += eventSum[j]! + sums.firstTaken * part[j]!;
    for (let k = 0; k <= j; k++) information[j * size + k]! -= sums.secondTaken * part[j]! * part[k]!;
  }
}

/**
 * Partial log-likelihood, score and information of counted profiles, risk set by risk set: each is counted from its own largest risk and its
 * own mean covariates, so that no coefficient is too large for it and no difference of large numbers is taken.
 */
export function tableLikelihood(counted: CountedProfiles, ties: SummedTies): Evaluator {
  const { rows, strata } = counted;
  const { n, size, x } = rows;
  const result = emptyLikelihood(size);
  const eta = new Float64Array(n);
  const work = workFor(counted);
  return (beta) => {
    eta.fill(0);
    for (let j = 0; j < size; j++) for (let p = 0; p < n; p++) eta[p]! += beta[j]! * x[j]![p]!;
    result.logLikelihood = 0;
    result.score.fill(0);
    result.information.fill(0);
    for (const stratum of strata)
      for (let at = 0; at < stratum.times; at++) addTime(result, work, { counted, stratum, at, eta, ties });
    for (let j = 0; j < size; j++)
      for (let k = 0; k < j; k++) result.information[k * size + j] = result.information[j * size + k]!;
    return result;
  };
}
