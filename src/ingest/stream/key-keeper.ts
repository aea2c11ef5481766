/** The keys of the rows so far, each with a number. */
export interface KeyKeeper {
  /** The number of a key that was kept before; undefined for a new one. */
  readonly find: (key: string) => number | undefined;
  /** Keeps a number for a key that was just looked for. */
  readonly keep: (key: string, number: number) => void;
}

/**
 * Keeps keys. While they come in ascending order, as in most exports, none can have come before and a plain list of
 * them will do; a map of a million keys costs as much as reading their rows.
 */
export function keyKeeper(): KeyKeeper {
  const inOrder: string[] = [];
  const numbers: number[] = [];
  let known: Map<string, number> | null = null;
  return {
    find: (key) => {
      if (known === null) {
        const last = inOrder.at(-1);
        if (last === undefined || key > last) return undefined;
        known = new Map(inOrder.map((name, place) => [name, numbers[place] as number]));
      }
      return known.get(key);
    },
    keep: (key, number) => {
      if (known !== null) {
        known.set(key, number);
      } else {
        inOrder.push(key);
        numbers.push(number);
      }
    },
  };
}
