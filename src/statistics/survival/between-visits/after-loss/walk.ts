/** Hazards over the steps between knots, of the end asked about and of the others together: what the logarithm of their curves falls by. */
export interface Hazards {
  readonly own: Float64Array;
  readonly others: Float64Array;
}

/** A share after loss, and what it moves by: the hazards of each step, and the chance of loss at each knot. */
export interface Walked {
  readonly share: number;
  readonly byOwn: Float64Array;
  readonly byOthers: Float64Array;
  readonly byLoss: Float64Array;
}

/**
 * The share with an end by the last knot, as a walk through four states (followed, lost, with the end, ended otherwise): the hazard of the end is
 * multiplied by a factor in those lost, other ends come to them as to those followed. Within a step half of the other ends come first, as in
 * incidenceOver, whose share this is at the factor 1.
 *
 * @param loss chance of loss at each knot of those without an end after it; 0 at the last
 * @param factor 0: none of those lost has the end; Infinity: all have it, at once
 */
export function walkAfterLoss(
  { own, others, loss }: Hazards & { readonly loss: Float64Array },
  factor: number,
): Walked {
  const steps = own.length;
  const without = (hazard: number): number =>
    factor === Number.POSITIVE_INFINITY ? 1 : Math.exp(-factor * hazard);
  /** Of those followed, and lost, before each step: the share that comes to the end. */
  const followed = new Float64Array(steps + 1);
  const lost = new Float64Array(steps + 1).fill(factor === Number.POSITIVE_INFINITY ? 1 : 0);
  lost[steps] = 0;
  const next = (k: number): number => (1 - loss[k]!) * followed[k]! + loss[k]! * lost[k]!;
  for (let k = steps - 1; k >= 0; k--) {
    const rest = Math.exp(-others[k]!);
    const [stay, stayLost] = [Math.exp(-own[k]!), without(own[k]!)];
    followed[k] = ((1 - stay) * (1 + rest)) / 2 + stay * rest * next(k + 1);
    if (factor < Number.POSITIVE_INFINITY)
      lost[k] = ((1 - stayLost) * (1 + rest)) / 2 + stayLost * rest * lost[k + 1]!;
  }
  const [byOwn, byOthers] = [new Float64Array(steps), new Float64Array(steps)];
  const byLoss = new Float64Array(steps + 1);
  let [stillFollowed, stillLost] = [1, 0];
  for (let k = 0; k < steps; k++) {
    byLoss[k] = stillFollowed * (lost[k]! - followed[k]!);
    stillLost += stillFollowed * loss[k]!;
    stillFollowed *= 1 - loss[k]!;
    const rest = Math.exp(-others[k]!);
    const [stay, stayLost] = [Math.exp(-own[k]!), without(own[k]!)];
    const on = next(k + 1);
    byOwn[k] = stillFollowed * stay * ((1 + rest) / 2 - rest * on);
    byOthers[k] = -stillFollowed * rest * ((1 - stay) / 2 + stay * on);
    if (factor < Number.POSITIVE_INFINITY) {
      const onLost = lost[k + 1]!;
      byOwn[k]! += stillLost * factor * stayLost * ((1 + rest) / 2 - rest * onLost);
      byOthers[k]! -= stillLost * rest * ((1 - stayLost) / 2 + stayLost * onLost);
    }
    stillFollowed *= stay * rest;
    stillLost *= stayLost * rest;
  }
  return { share: next(0), byOwn, byOthers, byLoss };
}
