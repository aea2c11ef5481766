import { describe, expect, it } from "vitest";
import { betweenPowers } from "../../../src/statistics/hazards/likelihood/exponentials.js";
import { power } from "../../../src/statistics/shared/power.js";
import { seededGenerator } from "../../../src/statistics/shared/random.js";

/** A double as a whole number times 2^-52 of its own binade, exactly: value = digits * 2^exponent. */
function partsOf(value: number): { readonly digits: bigint; readonly exponent: number } {
  const view = new DataView(new ArrayBuffer(8));
  view.setFloat64(0, value);
  const bits = view.getBigUint64(0);
  const biased = Number((bits >> 52n) & 0x7ffn);
  return { digits: (bits & ((1n << 52n) - 1n)) | (1n << 52n), exponent: biased - 1075 };
}

/** Whether digits^n 2^(exponent n), in whole numbers, is below another such number. */
function isBelow(
  one: { readonly digits: bigint; readonly exponent: number },
  other: { readonly digits: bigint; readonly exponent: number },
): boolean {
  const least = Math.min(one.exponent, other.exponent);
  return one.digits << BigInt(one.exponent - least) < other.digits << BigInt(other.exponent - least);
}

/** Whether the exact number lies within so many halves of the last digit of the value. */
function isWithin(
  exact: { readonly digits: bigint; readonly exponent: number },
  { value, halves, raisedTo }: { readonly value: number; readonly halves: bigint; readonly raisedTo: number },
): boolean {
  const { digits, exponent } = partsOf(value);
  const side = (sign: bigint) => ({
    digits: (2n * digits + sign * halves) ** BigInt(raisedTo),
    exponent: (exponent - 1) * raisedTo,
  });
  return !isBelow(exact, side(-1n)) && !isBelow(side(1n), exact);
}

describe("powers against whole-number arithmetic, which is exact", () => {
  it("are within two units in the last digit: 2,000 bases to the exponents 3 to 40", () => {
    const { uniform } = seededGenerator(7, 1);
    for (let draw = 0; draw < 2000; draw++) {
      const [base, n] = [uniform() * 4 + 0.01, 3 + (draw % 38)];
      const { digits, exponent } = partsOf(base);
      const exact = { digits: digits ** BigInt(n), exponent: exponent * n };
      expect(isWithin(exact, { value: power(base, n), halves: 4n, raisedTo: 1 }), `${base} to the ${n}`).toBe(
        true,
      );
    }
  });

  it("are within one unit in the last digit: roots, 500 bases to the exponents 1/2, 1/4 and 1/8", () => {
    const { uniform } = seededGenerator(7, 2);
    for (let draw = 0; draw < 500; draw++) {
      const [base, root] = [uniform() * 1000, 2 << (draw % 3)];
      const value = power(base, 1 / root);
      expect(isWithin(partsOf(base), { value, halves: 2n, raisedTo: root }), `${base}, 1/${root}`).toBe(true);
    }
  });

  it("of two with a whole exponent are exact, down to the smallest number", () => {
    let up = 1;
    let down = 1;
    for (let k = 0; k <= 1023; k++, up *= 2) expect(power(2, k)).toBe(up);
    for (let k = 0; k <= 1074; k++, down /= 2) expect(power(2, -k)).toBe(down);
  });

  it("have the conventions that weights rely on", () => {
    expect([power(0, 0), power(0.3, 0), power(0, 0.5), power(0.3, 1), power(1, 7.5)]).toEqual([
      1, 1, 0, 0.3, 1,
    ]);
  });

  it("between the powers of two each entry of the table is the nearest double", () => {
    expect(betweenPowers).toHaveLength(64);
    betweenPowers.forEach((value, k) => {
      expect(isWithin({ digits: 1n, exponent: k }, { value, halves: 1n, raisedTo: 64 }), `2^(${k}/64)`).toBe(
        true,
      );
    });
  });
});
