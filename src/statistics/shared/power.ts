import pow from "@stdlib/math-base-special-pow";

/**
 * A base raised to a real exponent, to within two units in the last digit, the same on every engine.
 *
 * The language leaves the last digit of `x ** y` and of Math.pow to the engine, and engines differ in it. This is a function
 * of additions, products and roots alone, whose digits the language fixes. A square is a product on every engine and may be
 * written as `x ** 2`; other whole and half exponents are products and roots where they stand.
 *
 * @returns 1 for the exponent 0, also of the base 0; powers of 2 with a whole exponent are exact
 * @example
 * power(2, 0.5) // => 1.4142135623730951
 */
export const power = (base: number, exponent: number): number => pow(base, exponent);
