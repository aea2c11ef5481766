/** Longer words are not compared: a whole line is no misspelling. */
const longest = 40;

/**
 * The word that a misspelt one is nearest to, or null: at most one slip in words up to five letters, two in longer
 * ones. A slip is a letter too many, too few, another letter, or two neighbours swapped
 * (optimal string alignment distance). Of several equally near the first is taken.
 *
 * @example
 * nearest("cripm", ["crimp", "pinch"]) // => "crimp"
 */
export function nearest(word: string, words: readonly string[]): string | null {
  if (word === "" || word.length > longest) return null;
  let best: { word: string; slips: number } | null = null;
  const letters = lettersOf(word);
  for (const candidate of words) {
    const allowed = Math.min(word.length, candidate.length) <= 5 ? 1 : 2;
    if (Math.abs(word.length - candidate.length) > allowed) continue;
    if (fewestSlips(letters, lettersOf(candidate)) > allowed) continue;
    const slips = slipsBetween(word.toLowerCase(), candidate.toLowerCase());
    if (slips <= allowed && slips < candidate.length && slips < (best?.slips ?? Number.POSITIVE_INFINITY)) {
      best = { word: candidate, slips };
    }
  }
  return best?.word ?? null;
}

/** Which letters a word has, as bits; different letters may share a bit. */
function lettersOf(word: string): number {
  let letters = 0;
  for (const letter of word.toLowerCase()) letters |= 1 << (letter.charCodeAt(0) & 31);
  return letters;
}

/** A slip takes at most one letter out of a word and puts at most one in: most words are too far apart by that alone. */
const fewestSlips = (one: number, other: number): number =>
  Math.max(bitsIn(one & ~other), bitsIn(other & ~one));

function bitsIn(number: number): number {
  let count = 0;
  for (let left = number; left !== 0; left &= left - 1) count += 1;
  return count;
}

function slipsBetween(one: string, other: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: other.length + 1 }, (_, column) => column);
  for (let row = 1; row <= one.length; row++) {
    const current = [row];
    for (let column = 1; column <= other.length; column++) {
      const same = one[row - 1] === other[column - 1] ? 0 : 1;
      let slips = Math.min(last[column]! + 1, current[column - 1]! + 1, last[column - 1]! + same);
      const swapped =
        row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1];
      if (swapped) slips = Math.min(slips, beforeLast[column - 2]! + 1);
      current.push(slips);
    }
    beforeLast = last;
    last = current;
  }
  return last[other.length]!;
}
