/** The same value with the keys of every object in the order of the alphabet, and without those that hold nothing. */
export function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value).filter(([, each]) => each !== undefined);
  return Object.fromEntries(
    entries.sort(([one], [other]) => (one < other ? -1 : 1)).map(([key, each]) => [key, inOrder(each)]),
  );
}

/** One text for one content: keys in the order of the alphabet, no spaces, numbers as JSON writes them. */
export const canonicalText = (value: unknown): string => JSON.stringify(inOrder(value));

/** A key in which two settings differ; null where one of them has no such key. */
export interface KeyDifference {
  /** As `question.milestone`. */
  readonly key: string;
  readonly one: string | null;
  readonly other: string | null;
}

/** Key by key in the order of the alphabet, where two settings differ; values as JSON, a list as one value. */
export function keyDifferences(one: unknown, other: unknown): readonly KeyDifference[] {
  const [here, there] = [new Map(leavesOf(inOrder(one))), new Map(leavesOf(inOrder(other)))];
  return [...new Set([...here.keys(), ...there.keys()])]
    .sort()
    .map((key) => ({ key, one: here.get(key) ?? null, other: there.get(key) ?? null }))
    .filter((each) => each.one !== each.other);
}

/** Values by their path; a list is one value. */
function leavesOf(value: unknown, path: readonly string[] = []): readonly (readonly [string, string])[] {
  if (typeof value !== "object" || value === null || Array.isArray(value))
    return [[path.join("."), JSON.stringify(value)]];
  return Object.entries(value).flatMap(([key, each]) => leavesOf(each, [...path, key]));
}
