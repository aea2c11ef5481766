import type { Generator } from "../../../src/statistics/index.js";

/** The person of each of n fingers, 4 of 10 persons having two, and a function that draws numbers of each finger alike within persons. */
export function severalFingersOf(n: number, generator: Generator) {
  const persons: number[] = [];
  for (let person = 0; persons.length < n; person++) {
    persons.push(person);
    if (generator.uniform() < 0.4 && persons.length < n) persons.push(person);
  }
  /** Standard normal, correlated within persons. */
  const alike = (correlation: number): number[] => {
    const shared = new Map<number, number>();
    return persons.map((person) => {
      const own = shared.get(person) ?? generator.normal();
      shared.set(person, own);
      return Math.sqrt(correlation) * own + Math.sqrt(1 - correlation) * generator.normal();
    });
  };
  return { persons, alike };
}
