import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plusFromState } from "pure-rand/generator/xoroshiro128plus";
import { checkNumber } from "./arguments.js";

/** Draws, one after the other, that depend on the seed and the stream and on nothing else. */
export interface Generator {
  /** In the open interval from 0 to 1: never 0, never 1. */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
  /** A whole number from 0 to below - 1, each as likely as the others. */
  integer(below: number): number;
}

const mask64 = (1n << 64n) - 1n;
const golden = 0x9e3779b97f4a7c15n;

/** One step of the splitmix64 finaliser: near inputs give far outputs. */
function mixed(input: bigint): bigint {
  let z = input & mask64;
  z = ((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n) & mask64;
  z = ((z ^ (z >> 27n)) * 0x94d049bb133111ebn) & mask64;
  return z ^ (z >> 31n);
}

/** Four 32-bit words of state, hashed from seed and stream; the plain generator would start neighbours alike. */
function stateOf(seed: number, stream: number): number[] {
  const start = mixed(mixed(BigInt(seed) + golden) + BigInt(stream) * golden);
  const high = mixed(start + golden);
  const low = mixed(start + 2n * golden);
  const words = [high >> 32n, high & 0xffffffffn, low >> 32n, low & 0xffffffffn];
  return words.map((word) => Number(word) | 0);
}

/**
 * A generator of random numbers for one stream of one seed.
 *
 * Give each replicate of a simulation or bootstrap its own stream: then neither the order nor the number of threads can
 * change a result.
 *
 * @param seed whole number
 * @param stream whole number, 0 or more: the replicate
 * @throws ArgumentError for a seed or stream that is not a whole number
 * @source generator: Blackman & Vigna 2021, ACM Trans Math Softw 47:36 (xoroshiro128+); mixing: Steele, Lea & Flood 2014,
 *   OOPSLA 2014:453 (splitmix64); normal draws: Marsaglia & Bray 1964, SIAM Rev 6:260 (polar method)
 */
export function seededGenerator(seed: number, stream: number): Generator {
  checkNumber({ name: "seed", value: seed }, "code");
  checkNumber({ name: "stream", value: stream }, "count");
  const source = xoroshiro128plusFromState(stateOf(seed, stream));
  for (let draw = 0; draw < 16; draw++) source.next();
  let spare: number | null = null;

  const uniform = (): number => {
    let value = uniformFloat64(source);
    while (value === 0) value = uniformFloat64(source);
    return value;
  };

  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const a = 2 * uniform() - 1;
      const b = 2 * uniform() - 1;
      const square = a * a + b * b;
      if (square >= 1 || square === 0) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      spare = b * factor;
      return a * factor;
    }
  };

  const integer = (below: number): number => {
    checkNumber({ name: "below", value: below }, "count");
    checkNumber({ name: "below", value: below }, "positive");
    return uniformInt(source, 0, below - 1);
  };

  return { uniform, normal, integer };
}
