import { createHash } from "node:crypto";
import { seededGenerator } from "../../src/statistics/index.js";

const argumentsEach = 400_000;

/** Draws one argument; `at` counts the arguments, so that one function can be swept over several ranges in turn. */
type Draw = (uniform: () => number, at: number) => number;

const between =
  (from: number, to: number): Draw =>
  (uniform) =>
    from + (to - from) * uniform();

const inTurn =
  (...draws: readonly Draw[]): Draw =>
  (uniform, at) =>
    draws[at % draws.length]!(uniform, at);

/** Positive numbers of every size: near 1, shares, ratios of counts, and from the smallest to the largest. */
const positive = inTurn(
  between(0, 1),
  between(0.999, 1.001),
  between(0, 5000),
  (uniform) => Math.ceil(uniform() * 5000) / Math.ceil(uniform() * 5000),
  (uniform, at) => (1 + uniform()) * (at % 2 === 0 ? 2 : 1 / 2) ** 2 * sizes[at % sizes.length]!,
);
const sizes = [1e-300, 1e-100, 1e-30, 1e-10, 1, 1e10, 1e30, 1e100, 1e300];

/**
 * The functions of the engine that src/ calls and whose last digit the language leaves to the engine, over the arguments
 * that occur. Powers are not among them: src/ has its own.
 */
export const swept: Readonly<Record<string, Draw>> = {
  exp: inTurn(between(-745, 709), between(-40, 40), between(-1, 1), between(-1e-3, 1e-3)),
  expm1: inTurn(between(-40, 40), between(-1, 1), between(-1e-6, 1e-6)),
  log: positive,
  log1p: inTurn(between(-1, 0), between(-1e-6, 1e-6), positive),
  log2: positive,
  sin: between(-2, 2),
  asin: between(-1, 1),
  tanh: between(-20, 20),
  atanh: between(-1, 1),
  hypot: between(-100, 100),
};

/** A fingerprint of what each function gives for the same arguments, all bits of each result. */
export const fingerprintsOfFunctions = (): readonly (readonly [string, string])[] =>
  Object.entries(swept).map(([name, draw], stream) => {
    const { uniform } = seededGenerator(24, stream);
    const called = Math[name as "hypot"];
    const results = Float64Array.from({ length: argumentsEach }, (_, at) =>
      name === "hypot" ? called(draw(uniform, at), draw(uniform, at)) : called(draw(uniform, at)),
    );
    return [`Math.${name}`, createHash("sha256").update(results).digest("hex")];
  });
