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
export function nearest(word, words) {
    if (word === "" || word.length > longest)
        return null;
    let best = null;
    for (const candidate of words) {
        const allowed = Math.min(word.length, candidate.length) <= 5 ? 1 : 2;
        if (Math.abs(word.length - candidate.length) > allowed)
            continue;
        const slips = slipsBetween(word.toLowerCase(), candidate.toLowerCase());
        if (slips <= allowed && slips < candidate.length && slips < (best?.slips ?? Number.POSITIVE_INFINITY)) {
            best = { word: candidate, slips };
        }
    }
    return best?.word ?? null;
}
function slipsBetween(one, other) {
    let beforeLast = [];
    let last = Array.from({ length: other.length + 1 }, (_, column) => column);
    for (let row = 1; row <= one.length; row++) {
        const current = [row];
        for (let column = 1; column <= other.length; column++) {
            const same = one[row - 1] === other[column - 1] ? 0 : 1;
            let slips = Math.min(last[column] + 1, current[column - 1] + 1, last[column - 1] + same);
            const swapped = row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1];
            if (swapped)
                slips = Math.min(slips, beforeLast[column - 2] + 1);
            current.push(slips);
        }
        beforeLast = last;
        last = current;
    }
    return last[other.length];
}
