/** Draws, one after the other, that depend on the key and on nothing else. */
export interface Chance {
  /** Between 0 and 1, neither of them included. */
  readonly uniform: () => number;
  /** Standard normal. */
  readonly normal: () => number;
  /** Days until something happens that has this rate a day. */
  readonly wait: (rate: number) => number;
}

const rounds = 10;

/** High and low half of the product of two whole numbers of 32 bits. */
function product(a: number, b: number): readonly [high: number, low: number] {
  const [aHigh, aLow, bHigh, bLow] = [a >>> 16, a & 0xffff, b >>> 16, b & 0xffff];
  const low = aLow * bLow;
  const middle = aHigh * bLow + (low >>> 16);
  const rest = aLow * bHigh + (middle % 0x10000);
  const high = aHigh * bHigh + Math.floor(middle / 0x10000) + Math.floor(rest / 0x10000);
  return [high >>> 0, Math.imul(a, b) >>> 0];
}

/**
 * Four words of 32 bits from four words of a counter and two of a key: a block of the generator Philox 4x32 with ten rounds. Each counter
 * gives its own block, so that streams need no seeding.
 *
 * @source Salmon, Moraes, Dror & Shaw 2011, Parallel random numbers: as easy as 1, 2, 3, SC '11, article 16
 */
export function philox(counter: readonly number[], key: readonly number[]): readonly number[] {
  let [a, b, c, d] = counter as [number, number, number, number];
  let [first, second] = key as [number, number];
  for (let round = 0; round < rounds; round++) {
    const [high0, low0] = product(0xd2511f53, a);
    const [high1, low1] = product(0xcd9e8d57, c);
    [a, b, c, d] = [(high1 ^ b ^ first) >>> 0, low1, (high0 ^ d ^ second) >>> 0, low0];
    first = (first + 0x9e3779b9) >>> 0;
    second = (second + 0xbb67ae85) >>> 0;
  }
  return [a, b, c, d];
}

/** A word of 32 bits from a text, by the hash FNV-1a (Fowler, Noll & Vo, RFC 9923). */
function wordOf(text: string): number {
  let hash = 0x811c9dc5;
  for (const byte of new TextEncoder().encode(text)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return hash;
}

/** The draws of one cohort of a named program: every name, size and stream has its own. */
export function chanceOf(
  name: string,
  { n, stream }: { readonly n: number; readonly stream: number },
): Chance {
  const key = [wordOf(name), n];
  let block = 0;
  let words: readonly number[] = [];
  let used = 4;
  const uniform = (): number => {
    if (used === 4) {
      words = philox([block++, stream, 0, 0], key);
      used = 0;
    }
    return (words[used++]! + 0.5) / 2 ** 32;
  };
  return {
    uniform,
    // Box & Muller 1958, Ann Math Stat 29:610; one of the two is enough
    normal: () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform()),
    wait: (rate) => (rate === 0 ? Number.POSITIVE_INFINITY : -Math.log(uniform()) / rate),
  };
}
