import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type KeyKeeper, keyKeeper } from "../../../src/ingest/stream/key-keeper.js";
import { textStore } from "../../../src/ingest/stream/text-store.js";

const seed = 20_261_125;

/** Held against the map of the language (ECMA-262, Map objects), which knows exactly which keys it has met. */
function agreesWithMap(keeper: KeyKeeper, keys: readonly string[]): void {
  const places = new Map<string, number>();
  const numbers = new Map<string, number>();
  keys.forEach((key, at) => {
    const place = keeper.placeOf(key);
    if (!places.has(key)) places.set(key, places.size);
    expect(place).toBe(places.get(key));
    expect(keeper.numberAt(place)).toBe(numbers.get(key) ?? 0);
    numbers.set(key, at % 2 === 0 ? at + 1 : -at);
    keeper.setNumber(place, numbers.get(key)!);
  });
}

const key = fc.oneof(fc.stringMatching(/^P0{0,5}[0-9]{0,3}$/), fc.string(), fc.string({ unit: "grapheme" }));

describe("keys that are kept", () => {
  it("have the places and numbers that a map of the language gives them, in any order", () => {
    fc.assert(
      fc.property(fc.array(key, { maxLength: 300 }), fc.boolean(), (keys, isSorted) => {
        agreesWithMap(keyKeeper(), isSorted ? [...keys.toSorted(), ...keys] : keys);
      }),
      { seed, numRuns: 300 },
    );
  });

  it("so do tens of thousands of them, ascending up to one that is not", () => {
    const ascending = Array.from({ length: 20_000 }, (_, at) => `P${String(at).padStart(6, "0")}`);
    agreesWithMap(keyKeeper(), [...ascending, "", ...ascending.toReversed(), "A", ...ascending]);
  });

  it("so do keys that are made to collide", () => {
    const sameSlot = collidingKeys(450);
    agreesWithMap(keyKeeper(), [...sameSlot.toSorted(), ...sameSlot]);
    agreesWithMap(keyKeeper(), [...sameSlot.toSorted().toReversed(), ...sameSlot]);
  });
});

/** Keys whose hashes have the same low bits, so that they look for the same slot of a table that is not large. */
function collidingKeys(count: number): string[] {
  const store = textStore();
  const found: string[] = [];
  for (let at = 0; found.length < count; at++) {
    const name = at.toString(36);
    store.write(name);
    if ((store.hashOf(0) & 0xfff) === 0) found.push(name);
  }
  return found;
}
