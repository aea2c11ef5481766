/** A smooth function of a few variables. */
export interface Smooth {
  readonly evaluate: (at: Float64Array) => { readonly value: number; readonly gradient: Float64Array };
}

export interface Minimum {
  readonly point: Float64Array;
  readonly value: number;
  readonly gradient: Float64Array;
  readonly iterations: number;
  readonly converged: boolean;
}

export interface MinimumOptions {
  readonly start: Float64Array;
  /** Largest part of the gradient at which the iterations stop. */
  readonly tolerance: number;
  readonly maximumIterations: number;
}

const product = (a: Float64Array, b: Float64Array): number => a.reduce((sum, x, i) => sum + x * b[i]!, 0);
const largest = (a: Float64Array): number => a.reduce((most, x) => Math.max(most, Math.abs(x)), 0);

/** Inverse second derivatives renewed from a step s and the change y of the gradient along it. */
function renew(inverse: Float64Array, along: { readonly s: Float64Array; readonly y: Float64Array }): void {
  const { s, y } = along;
  const size = s.length;
  const sy = product(s, y);
  if (!(sy > 1e-14 * Math.sqrt(product(s, s) * product(y, y)))) return;
  const moved = s.map((_, i) => y.reduce((sum, value, j) => sum + inverse[i * size + j]! * value, 0));
  const factor = (1 + product(y, moved) / sy) / sy;
  for (let i = 0; i < size; i++)
    for (let j = 0; j < size; j++)
      inverse[i * size + j]! += factor * s[i]! * s[j]! - (moved[i]! * s[j]! + s[i]! * moved[j]!) / sy;
}

/** A step may be this much worse where values no longer tell steps apart, relative to the value. */
const rounding = 1e-13;

/**
 * Minimum by the method of Broyden, Fletcher, Goldfarb and Shanno with step halving.
 *
 * @source Nocedal & Wright 2006, Numerical Optimization, chapter 6
 */
export function minimise({ evaluate }: Smooth, options: MinimumOptions): Minimum {
  const size = options.start.length;
  let point = options.start.slice();
  let { value, gradient } = evaluate(point);
  const inverse = new Float64Array(size * size);
  const restart = (scale: number): void => {
    inverse.fill(0);
    for (let k = 0; k < size; k++) inverse[k * size + k] = scale;
  };
  restart(1 / Math.max(1, largest(gradient)));
  let fresh = true;
  for (let iteration = 0; iteration < options.maximumIterations; iteration++) {
    if (largest(gradient) <= options.tolerance)
      return { point, value, gradient, iterations: iteration, converged: true };
    let step = gradient.map((_, i) => -gradient.reduce((sum, g, j) => sum + inverse[i * size + j]! * g, 0));
    let slope = product(step, gradient);
    if (!(slope < 0)) {
      restart(1 / Math.max(1, largest(gradient)));
      step = gradient.map((g, i) => -g * inverse[i * size + i]!);
      slope = product(step, gradient);
      fresh = true;
    }
    const slack = rounding * (1 + Math.abs(value));
    let part = 1;
    let next: ReturnType<Smooth["evaluate"]> | null = null;
    let there = point;
    for (; next === null && part > 1e-12; part /= 2) {
      const trial = point.map((x, i) => x + part * step[i]!);
      const found = evaluate(trial);
      if (!(found.value <= value + 1e-4 * part * slope + slack)) continue;
      next = found;
      there = trial;
    }
    if (next === null) {
      if (fresh) return { point, value, gradient, iterations: iteration, converged: false };
      restart(1 / Math.max(1, largest(gradient)));
      fresh = true;
      continue;
    }
    const s = there.map((x, i) => x - point[i]!);
    const y = next.gradient.map((g, i) => g - gradient[i]!);
    if (fresh) {
      const scale = product(s, y) / product(y, y);
      if (scale > 0) restart(scale);
    }
    fresh = false;
    renew(inverse, { s, y });
    point = there;
    ({ value, gradient } = next);
  }
  const converged = largest(gradient) <= options.tolerance;
  return { point, value, gradient, iterations: options.maximumIterations, converged };
}
