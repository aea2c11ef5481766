import type { HazardLayout } from "../layout/sorted-rows.js";
import { rangeSums } from "./range-sums.js";
import type { RiskState } from "./risk-state.js";

/** What each block adds for the rows at risk at its time, and what it adds for its own events instead. */
export interface Increments {
  readonly all: Float64Array;
  readonly own: Float64Array;
  /** What each sorted row's sum is multiplied by; left out: nothing. */
  readonly times?: Float64Array;
}

/**
 * For each sorted row the sum over the event times at which it was at risk of the increments of the baseline hazard, each times a factor
 * of its block where there is one. Events take their own part of the increment at their time.
 *
 * @param into filled, one a sorted row
 */
export function exposures(state: RiskState, into: Float64Array, factor: Float64Array | null): void {
  spreadOverRows(state.layout, incrementsOf(state, factor), into);
}

/** For each sorted row its risk times its exposure. @param into filled, one a sorted row */
export function expectedEvents(state: RiskState, into: Float64Array, factor: Float64Array | null): void {
  spreadOverRows(state.layout, { ...incrementsOf(state, factor), times: state.risk }, into);
}

function incrementsOf({ hazard, ownHazard }: RiskState, factor: Float64Array | null): Increments {
  return { all: timesFactor(hazard, factor), own: timesFactor(ownHazard, factor) };
}

/** What stands for each block times a factor of the block, where there is one. */
export const timesFactor = (values: Float64Array, factor: Float64Array | null): Float64Array =>
  factor === null ? values : values.map((value, block) => value * factor[block]!);

/** Sums of increments over the blocks at which each row is at risk. @param into filled, one a sorted row */
export function spreadOverRows(layout: HazardLayout, increments: Increments, into: Float64Array): void {
  if (layout.blockOfEntry)
    spreadWithEntry(layout, { ...increments, blockOfEntry: layout.blockOfEntry }, into);
  else spreadFromStart(layout, increments, into);
}

function spreadFromStart(layout: HazardLayout, { all, own, times }: Increments, into: Float64Array): void {
  const { blocks, blockStart, blockStratum, blockEvents } = layout;
  let sum = 0;
  for (let block = blocks - 1; block >= 0; block--) {
    if (block === blocks - 1 || blockStratum[block] !== blockStratum[block + 1]) sum = 0;
    const end = blockStart[block + 1]!;
    const firstEvent = end - blockEvents[block]!;
    const ofEvents = sum + own[block]!;
    sum += all[block]!;
    for (let i = blockStart[block]!; i < firstEvent; i++) into[i] = times ? sum * times[i]! : sum;
    for (let i = firstEvent; i < end; i++) into[i] = times ? ofEvents * times[i]! : ofEvents;
  }
}

function spreadWithEntry(
  layout: HazardLayout,
  { all, own, times, blockOfEntry }: Increments & { readonly blockOfEntry: Int32Array },
  into: Float64Array,
): void {
  const { blocks, blockStart, blockStratum, blockEvents } = layout;
  const sumOf = rangeSums(all);
  let last = blocks - 1;
  for (let block = blocks - 1; block >= 0; block--) {
    if (blockStratum[block] !== blockStratum[last]) last = block;
    const end = blockStart[block + 1]!;
    const firstEvent = end - blockEvents[block]!;
    for (let i = blockStart[block]!; i < end; i++) {
      const entry = blockOfEntry[i]!;
      const earlier = sumOf(block + 1, entry < 0 ? last : entry - 1);
      const sum = earlier + ((i < firstEvent ? all[block] : own[block]) as number);
      into[i] = times ? sum * times[i]! : sum;
    }
  }
}
