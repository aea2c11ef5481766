/** The recurrence s <- 48271 s mod 2147483647 in exact double arithmetic: the same draws in every language. */
const modulus = 2_147_483_647;
const multiplier = 48_271;
const discarded = 10;

/** Uniform draws one after the other, the first ten thrown away. */
export function drawsOf(seed: number): () => number {
  let state = seed;
  const next = (): number => {
    state = (multiplier * state) % modulus;
    return state / modulus;
  };
  for (let draw = 0; draw < discarded; draw++) next();
  return next;
}

/** Rounded to three decimals, halves up. */
export const toThree = (value: number): number => Math.floor(1000 * value + 0.5) / 1000;
