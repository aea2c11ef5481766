const letters = { a: 1, b: 2, c: 3, d: 4 };
/** Less than half a step, so that IV+ stays below V-. */
const sign = (mark) => (mark === "+" ? 0.3 : mark === "-" ? -0.3 : 0);
const romanNumbers = ["i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"];
/** A letter-less level (5, 5.9) is put where its second letter would stand. */
const numberAndLetter = (parts) => Number(parts[1]) * 10 + (letters[parts[2] ?? ""] ?? 2) + sign(parts[3]);
const readers = {
    french: [/^([1-9])([abc]?)([+-]?)$/, numberAndLetter],
    font: [/^([1-9])([abc]?)(\+?)$/, numberAndLetter],
    yds: [/^5\.(1[0-5]|[0-9])([abcd]?)([+-]?)$/, numberAndLetter],
    v: [/^v?(b|1[0-7]|[0-9])([+-]?)$/, (parts) => (parts[1] === "b" ? -1 : Number(parts[1])) + sign(parts[2])],
    uiaa: [
        /^(1[0-2]|[1-9]|xi{0,2}|ix|v?i{1,3}|i?v)([+-]?)$/,
        (parts) => (romanNumbers.indexOf(parts[1] ?? "") + 1 || Number(parts[1])) + sign(parts[2]),
    ],
    ewbank: [/^([1-9]|[1-3][0-9])$/, (parts) => Number(parts[1])],
};
/**
 * Where a level stands on its own scale: larger is harder, and nothing else may be read from the number.
 * Null for text that is no level of the scale.
 */
export function levelRank(level, scale) {
    const [form, rank] = readers[scale];
    const parts = form.exec(level.toLowerCase().replaceAll(/\s+/g, ""));
    return parts === null ? null : rank(parts);
}
