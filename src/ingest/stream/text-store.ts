/** Short texts one behind the other in one flat array, numbered from 0. */
export interface TextStore {
  readonly count: () => number;
  /** Writes a text behind the others, where the next one overwrites it unless it is kept. */
  readonly write: (text: string) => void;
  /** Keeps the text written last, as the one with the next number. */
  readonly keep: () => void;
  /** A number from the code units of the text at a place; the text written last is at the place behind all others. */
  readonly hashOf: (place: number) => number;
  /** Whether the text written last is the one at a place. */
  readonly isWritten: (place: number) => boolean;
  readonly at: (place: number) => string;
}

/** An array twice as long with the same beginning. */
export function grown<A extends Int32Array | Uint16Array | Float64Array>(array: A): A {
  const longer = new (array.constructor as new (length: number) => A)(2 * array.length);
  longer.set(array);
  return longer;
}

/** An empty store. */
export function textStore(): TextStore {
  let codes = new Uint16Array(16_384);
  /** Where each text begins, and where the one behind it would. */
  let starts = new Float64Array(1024);
  let count = 0;
  let end = 0;
  const startOf = (place: number): number => starts[place]!;
  const endOf = (place: number): number => (place === count ? end : starts[place + 1]!);

  return {
    count: () => count,
    write: (text) => {
      const start = startOf(count);
      end = start + text.length;
      while (end > codes.length) codes = grown(codes);
      for (let i = 0; i < text.length; i++) codes[start + i] = text.charCodeAt(i);
    },
    keep: () => {
      count += 1;
      if (count === starts.length) starts = grown(starts);
      starts[count] = end;
    },
    hashOf: (place) => hashOf(codes, { from: startOf(place), to: endOf(place) }),
    isWritten: (place) => {
      const [own, other] = [startOf(count), startOf(place)];
      const length = end - own;
      if (endOf(place) - other !== length) return false;
      for (let i = 0; i < length; i++) if (codes[own + i] !== codes[other + i]) return false;
      return true;
    },
    at: (place) => textOf(codes.subarray(startOf(place), endOf(place))),
  };
}

/** @source Fowler, Noll & Vo, FNV-1a of 32 bits (draft-eastlake-fnv), by code units; the upper bits are mixed into the lower */
function hashOf(codes: Uint16Array, { from, to }: { readonly from: number; readonly to: number }): number {
  let hash = 0x811c9dc5 | 0;
  for (let i = from; i < to; i++) hash = Math.imul(hash ^ codes[i]!, 0x01000193);
  return hash ^ (hash >>> 15);
}

const textOf = (codes: Uint16Array): string =>
  Array.from(codes, (code) => String.fromCharCode(code)).join("");
