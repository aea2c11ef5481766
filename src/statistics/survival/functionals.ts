import type { PreparedEvent } from "./prepared-event.js";
import { remaining } from "./robust-variance.js";

/**
 * A sum or integral over time of the share without an event, G: its value, and what the counts of each time do to it. With S the share without
 * any event, F and C those with the event and with a competing end (G = S + C), and the integrals over the times from this one on:
 */
export interface Functional {
  readonly value: number;
  /** Integral of G(t) - C at this time: what those event-free after it add. */
  readonly later: Float64Array;
  /** Integral of F(t) - F at this time: what they lose to the event; null where there are no competing ends. */
  readonly risen: Float64Array | null;
  /** S before this time times the length of the integral: what somebody adds who has a competing end at it; null likewise. */
  readonly ahead: Float64Array | null;
}

/** The share without the event at a time. */
export function shareFunctional(prepared: PreparedEvent, time: number): Functional {
  const { notYet, eventFree, competed, riskSets } = prepared;
  const { times } = riskSets;
  let reached = 0;
  while (reached < times.length && times[reached]! <= time) reached++;
  const value = reached === 0 ? 1 : notYet[reached - 1]!;
  const later = new Float64Array(times.length).fill(value, 0, reached);
  if (competed === null) return { value, later, risen: null, ahead: null };
  const risen = new Float64Array(times.length);
  const ahead = new Float64Array(times.length);
  for (let i = 0; i < reached; i++) {
    later[i] = Math.max(0, value - competed[i]!);
    risen[i] = notYet[i]! - value;
    ahead[i] = i === 0 ? 1 : eventFree[i - 1]!;
  }
  return { value, later, risen, ahead };
}

/** The area under the share without the event up to a horizon; summed from there backwards, in terms that are never negative. */
export function areaFunctional(prepared: PreparedEvent, horizon: number): Functional {
  const { notYet, eventFree, competed, riskSets } = prepared;
  const { times } = riskSets;
  const empty = () => new Float64Array(times.length);
  const [later, risen, ahead] = [empty(), empty(), empty()];
  let area = 0;
  let lost = 0;
  let end = horizon;
  let next = -1;
  for (let i = times.length - 1; i >= 0; i--) {
    const time = times[i]!;
    if (time >= horizon) continue;
    area += (end - time) * eventFree[i]!;
    if (next >= 0) {
      area += ((competed?.[next] ?? 0) - (competed?.[i] ?? 0)) * (horizon - end);
      lost += (notYet[i]! - notYet[next]!) * (horizon - end);
    }
    later[i] = area;
    risen[i] = lost;
    ahead[i] = (horizon - time) * (i === 0 ? 1 : eventFree[i - 1]!);
    end = time;
    next = i;
  }
  const value = area + end + (next < 0 ? 0 : (competed?.[next] ?? 0) * (horizon - end));
  return competed === null ? { value, later, risen: null, ahead: null } : { value, later, risen, ahead };
}

/**
 * Variance by the delta method, a sum over times of terms that are never negative: with n at risk, d events of which d_k of the cause and d_o others,
 *   d_k later^2 / (n (n - d)) + d_o risen^2 / (n (n - d)) + d_k d_o ahead^2 / n^3,
 * the multinomial variance of what each at risk contributes. Without competing ends it is Greenwood's.
 */
export function deltaVarianceOf({ riskSets, own, competing }: PreparedEvent, functional: Functional): number {
  const { later, risen, ahead } = functional;
  const { atRisk, events } = riskSets;
  let variance = 0;
  for (let i = 0; i < later.length; i++) {
    const d = events[i]!;
    if (d === 0) continue;
    const n = atRisk[i]!;
    const left = remaining(n, d);
    const [mine, others] = [own[i]!, competing?.[i] ?? 0];
    // where nobody is left nothing is left to come either: the terms are 0, not 0/0
    if (later[i]! !== 0 && mine > 0 && left > 0) variance += (later[i]! * later[i]! * mine) / (n * left);
    if (risen === null || ahead === null || others === 0) continue;
    if (left > 0) variance += (risen[i]! * risen[i]! * others) / (n * left);
    if (mine > 0) variance += (mine * others * ahead[i]! * ahead[i]!) / (n * n * n);
  }
  return variance;
}

/** What each row at risk at a time adds to its influence, and what the event or a competing end at that time does. */
interface Steps {
  readonly perRisk: number;
  readonly event: number;
  readonly competingEnd: number;
}

function stepsAt(prepared: PreparedEvent, { later, risen, ahead }: Functional, at: number): Steps {
  const { riskSets, own, competing } = prepared;
  const d = riskSets.events[at]!;
  if (d === 0) return { perRisk: 0, event: 0, competingEnd: 0 };
  const n = riskSets.atRisk[at]!;
  const left = remaining(n, d);
  const [mine, others] = [own[at]!, competing?.[at] ?? 0];
  const [a, lost] = [later[at]!, risen?.[at] ?? 0];
  if (left > 0) {
    const spread = 1 / left - 1 / n;
    return {
      perRisk: spread * (a * (mine / d) - lost * (others / d)),
      event: -a / left,
      competingEnd: lost / left,
    };
  }
  // nobody is left: who had the event and who a competing end is all that can vary
  if (mine === 0 || others === 0) return { perRisk: 0, event: 0, competingEnd: 0 };
  const one = ahead![at]! / n;
  return { perRisk: -one * (others / n), event: 0, competingEnd: one };
}

/** Derivative of a functional by the weight of each row, times that weight: its influence. */
export function influences(prepared: PreparedEvent, functional: Functional): Float64Array {
  const { riskSets, ends, weights } = prepared;
  const { rowTime, rowStart } = riskSets;
  const count = functional.later.length;
  const running = new Float64Array(count + 1);
  const own = new Float64Array(count);
  const competing = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const steps = stepsAt(prepared, functional, i);
    running[i + 1] = running[i]! + steps.perRisk;
    own[i] = steps.event;
    competing[i] = steps.competingEnd;
  }
  const moved = new Float64Array(riskSets.n);
  for (let row = 0; row < moved.length; row++) {
    const at = rowTime[row]!;
    const start = rowStart ? running[rowStart[row]!]! : 0;
    const end = ends[row] === 1 ? own[at]! : ends[row] === 2 ? competing[at]! : 0;
    moved[row] = (weights?.[row] ?? 1) * (running[at + 1]! - start + end);
  }
  return moved;
}
