/**
 * The known word that a mistyped one most likely stands for, or null when none is near.
 * Near: at most a third of its letters inserted, removed, replaced or swapped with the next.
 */
export function nearestWord(word: string, known: readonly string[]): string | null {
  const asked = simplified(word);
  let nearest: string | null = null;
  let fewest = Number.POSITIVE_INFINITY;
  for (const candidate of known) {
    const edits = editDistance(asked, simplified(candidate));
    if (edits < fewest && edits <= Math.ceil(candidate.length / 3)) {
      nearest = candidate;
      fewest = edits;
    }
  }
  return nearest;
}

const simplified = (word: string) => word.slice(0, 80).toLowerCase().replaceAll(/[\s-]+/g, "_");

/** Restricted edit distance (insert, remove, replace, swap neighbours): Damerau 1964, Commun ACM 7:171. */
function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let edits = Math.min(last[j]! + 1, row[j - 1]! + 1, last[j - 1]! + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) edits = Math.min(edits, beforeLast[j - 2]! + 1);
      row.push(edits);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length]!;
}
