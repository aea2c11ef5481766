/** Places by the hashes of what stands there. */
export interface HashTable {
  /**
   * The place that was entered with this hash and holds the same; where there is none, the new place, which is entered.
   * Null when too many others were in the way.
   */
  readonly placeOf: (
    hash: number,
    of: { readonly isThere: (place: number) => boolean; readonly newPlace: number },
  ) => number | null;
}

/** Others in the way of a look, beyond which they must have been made to collide. */
const mostLooks = 200;

/** An empty table; it grows so that every other slot stays free, and few looks need a third. */
export function hashTable(): HashTable {
  let slots = newSlots(4096);
  let count = 0;
  return {
    placeOf: (hash, { isThere, newPlace }) => {
      if (4 * count >= slots.length) slots = rehashed(slots);
      const last = slots.length - 1;
      let at = (2 * hash) & last;
      for (let looks = 0; looks < mostLooks; looks++) {
        const place = slots[at + 1]! - 1;
        if (place === free) {
          slots[at] = hash;
          slots[at + 1] = newPlace + 1;
          count += 1;
          return newPlace;
        }
        if (slots[at] === hash && isThere(place)) return place;
        at = (at + 2) & last;
      }
      return null;
    },
  };
}

const free = -1;

/** In pairs, their number a power of two: a hash and its place plus 1, which is 0 where the slot is free. */
const newSlots = (pairs: number): Int32Array => new Int32Array(2 * pairs);

/** Twice as many slots with the same entries. */
function rehashed(slots: Int32Array): Int32Array {
  const more = newSlots(slots.length);
  const last = more.length - 1;
  for (let from = 0; from < slots.length; from += 2) {
    if (slots[from + 1] === 0) continue;
    let at = (2 * slots[from]!) & last;
    while (more[at + 1] !== 0) at = (at + 2) & last;
    more[at] = slots[from]!;
    more[at + 1] = slots[from + 1]!;
  }
  return more;
}
