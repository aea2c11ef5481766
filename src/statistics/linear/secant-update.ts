/** A step and by how much the score fell along it, both over all covariates. */
interface Secant {
  readonly step: Float64Array;
  readonly fall: Float64Array;
}

const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let j = 0; j < a.length; j++) sum += a[j]! * b[j]!;
  return sum;
};

/**
 * Information (flat by rows, symmetric) brought in line with what the score did along a step, without being summed anew: I + y y' / s'y -
 * I s s' I / s'I s, s being the step and y the fall of the score. What was positive definite stays so.
 *
 * @param information changed in place; left alone where the score did not fall along the step
 * @source Nocedal & Wright 2006, Numerical Optimization, chapter 6
 */
export function updateInformationBySecant(information: Float64Array, { step, fall }: Secant): void {
  const size = step.length;
  const expected = step.map((_, j) => dot(information.subarray(j * size, (j + 1) * size), step));
  const observedAlong = dot(fall, step);
  const expectedAlong = dot(expected, step);
  if (!(observedAlong > 0 && expectedAlong > 0)) return;
  for (let j = 0; j < size; j++)
    for (let k = 0; k < size; k++)
      information[j * size + k]! +=
        (fall[j]! * fall[k]!) / observedAlong - (expected[j]! * expected[k]!) / expectedAlong;
}
