import { addCrossProducts } from "./cross-products.js";
import type { RiskState } from "./risk-state.js";

/** The events of tied blocks, block after block, gathered once: they lie far apart among the rows. A column a covariate where there are several. */
export interface TiedEvents {
  /** Sorted row of each event. */
  readonly at: Int32Array;
  readonly x: readonly Float64Array[];
  /** For each covariate its mean over the risk set of each tied block, to be filled before the shares are taken off. */
  readonly mean: readonly Float64Array[];
  /** Room to work in, one an event. */
  readonly risk: Float64Array;
  readonly weight: Float64Array;
  readonly deviation: readonly Float64Array[];
}

export function tiedEventsOf({ layout, tied }: RiskState): TiedEvents {
  const { blockStart, blockEvents, x } = layout;
  const at = new Int32Array(tied.reduce((sum, block) => sum + blockEvents[block]!, 0));
  let event = 0;
  for (const block of tied) {
    const end = blockStart[block + 1]!;
    for (let row = end - blockEvents[block]!; row < end; row++) at[event++] = row;
  }
  return {
    at,
    x: x.map((column) => {
      const own = new Float64Array(at.length);
      for (let event = 0; event < at.length; event++) own[event] = column[at[event]!]!;
      return own;
    }),
    mean: x.map(() => new Float64Array(tied.length)),
    risk: new Float64Array(at.length),
    weight: new Float64Array(at.length),
    deviation: x.map(() => new Float64Array(at.length)),
  };
}

/**
 * Takes off the information what Efron's ties take off the risk sets, where it was summed as if each denominator of a time were the whole risk
 * set. With x counted from the mean of that, the denominator at f lacks f times the events' sum of r x x', and has a mean of its own:
 *
 * sum of w f / (s0 (1 - f c)) times the sum over events of r x x', and sum of w f^2 / (1 - f c)^2 times v v', v being the events' sum of r x / s0.
 */
export function takeSharesOff(state: RiskState, events: TiedEvents, into: Float64Array): void {
  const { layout, risk, perRisk, firstTaken, second, shift, rest, tied, tiedPart } = state;
  const { at, weight } = events;
  for (let event = 0; event < at.length; event++) events.risk[event] = risk[at[event]!]!;
  const weightOfPart = new Float64Array(tied.length);
  let event = 0;
  for (let i = 0; i < tied.length; i++) {
    const block = tied[i]!;
    const taken = firstTaken[block]! * perRisk[block]!;
    for (let end = event + layout.blockEvents[block]!; event < end; event++)
      weight[event] = taken * events.risk[event]!;
    weightOfPart[i] = rest[block]! + second[block]! * shift[block]! ** 2;
  }
  for (let j = 0; j < tiedPart.length; j++) setDeviations(state, events, j);
  addCrossProducts(into, events.deviation, { weights: weight, rows: at.length, factor: -1 });
  addCrossProducts(into, tiedPart, { weights: weightOfPart, rows: tied.length, factor: -1 });
}

/** Fills the deviations of one covariate of the events from its mean over their risk set, and its part v of each block. */
function setDeviations({ layout, perRisk, tied, tiedPart }: RiskState, events: TiedEvents, j: number): void {
  const { risk } = events;
  const [x, deviation] = [events.x[j], events.deviation[j]] as [Float64Array, Float64Array];
  const [mean, part] = [events.mean[j], tiedPart[j]] as [Float64Array, Float64Array];
  let event = 0;
  for (let i = 0; i < tied.length; i++) {
    const block = tied[i]!;
    const middle = mean[i]!;
    let sum = 0;
    for (let end = event + layout.blockEvents[block]!; event < end; event++) {
      const apart = x[event]! - middle;
      deviation[event] = apart;
      sum += risk[event]! * apart;
    }
    part[i] = sum * perRisk[block]!;
  }
}
