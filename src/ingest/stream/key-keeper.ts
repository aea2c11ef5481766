import { hashTable } from "./hash-table.js";
import { grown, type TextStore, textStore } from "./text-store.js";

/** Numbers keys in the order in which they are first met, and keeps a whole number with each. */
export interface KeyKeeper {
  /** The place of a key: that of its first meeting; for a new key the next one, where the number is 0. */
  readonly placeOf: (key: string) => number;
  readonly numberAt: (place: number) => number;
  readonly setNumber: (place: number, number: number) => void;
}

/**
 * Keeps keys, exactly, in flat arrays: of a million strings in a map each collection of garbage would look at every
 * one. While keys come in ascending order, as in most exports, none can have come before, and none is looked for.
 */
export function keyKeeper(): KeyKeeper {
  const store = textStore();
  let numbers = new Int32Array(1024);
  let last = "";
  let search: Search | null = null;

  const placeOf = (key: string): number => {
    if (search === null && (store.count() === 0 || key > last)) {
      last = key;
      return store.count();
    }
    search ??= searchByHash(store) ?? searchByMap(store);
    const place = search(key);
    if (place !== null) return place;
    search = searchByMap(store);
    return search(key)!;
  };
  return {
    placeOf: (key) => {
      store.write(key);
      const place = placeOf(key);
      if (place === store.count()) {
        store.keep();
        if (place === numbers.length) numbers = grown(numbers);
      }
      return place;
    },
    numberAt: (place) => numbers[place]!,
    setNumber: (place, number) => {
      numbers[place] = number;
    },
  };
}

/** The place of the key that the store has written last; null where the search has become too long. */
type Search = (key: string) => number | null;

/** Null where the keys are made to collide. */
function searchByHash(store: TextStore): Search | null {
  const table = hashTable();
  const isThere = (): boolean => false;
  for (let i = 0; i < store.count(); i++) {
    if (table.placeOf(store.hashOf(i), { isThere, newPlace: i }) === null) return null;
  }
  return () => {
    const newPlace = store.count();
    return table.placeOf(store.hashOf(newPlace), { isThere: store.isWritten, newPlace });
  };
}

/** The runtime's own map, which bears keys that are made to collide. */
function searchByMap(store: TextStore): Search {
  const places = new Map<string, number>();
  for (let i = 0; i < store.count(); i++) places.set(store.at(i), i);
  return (key) => {
    const known = places.get(key);
    if (known === undefined) places.set(key, store.count());
    return known ?? store.count();
  };
}
