/** Words in a sentence, texts in quotation marks. */
export function listed(words: readonly (string | number)[], last: "and" | "or"): string {
  const shown = words.map((word) => (typeof word === "string" ? `"${word}"` : String(word)));
  return shown.length < 2 ? shown.join("") : `${shown.slice(0, -1).join(", ")} ${last} ${shown.at(-1)}`;
}

/** " (did you mean "log-log"?)" where one of the words is much like the one found, else nothing. */
export function suggestion(found: unknown, words: readonly (string | number)[]): string {
  if (typeof found !== "string") return "";
  const likenesses = words
    .filter((word) => typeof word === "string")
    .map((word) => ({ word, edits: editsBetween(plain(found), plain(word)) }))
    .filter(({ word, edits }) => edits <= Math.max(1, Math.floor(word.length / 3)))
    .sort((a, b) => a.edits - b.edits);
  const [nearest] = likenesses;
  return nearest === undefined ? "" : ` (did you mean "${nearest.word}"?)`;
}

/** Case, spaces, hyphens and underscores are not what makes two words differ. */
const plain = (word: string): string => word.toLowerCase().replace(/[\s_-]/g, "");

/**
 * Fewest letters put in, taken out or replaced that turn one word into the other.
 *
 * @source Levenshtein 1966, Soviet Physics Doklady 10:707
 */
function editsBetween(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let i = 1; i <= b.length; i++) {
      const replaced = above[i - 1]! + (a[row - 1] === b[i - 1] ? 0 : 1);
      current.push(Math.min(replaced, above[i]! + 1, current[i - 1]! + 1));
    }
    above = current;
  }
  return above[b.length]!;
}
