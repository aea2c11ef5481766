/** A wording that says the same whatever the query holds. */
export const plainly = (expected, mend, rest = {}) => ({
    ...rest,
    expected: () => expected,
    mend: () => mend,
});
const longestQuote = 60;
/** A cell as it may be shown: on one line, cut when long. */
export function quoted(text) {
    const visible = [...text.slice(0, longestQuote + 1)].map((character) => isControl(character) ? " " : character);
    const cut = visible.length > longestQuote ? `${visible.slice(0, longestQuote).join("")}…` : visible.join("");
    return `"${cut}"`;
}
const isControl = (character) => {
    const code = character.codePointAt(0) ?? 0;
    return code < 32 || (code >= 127 && code < 160) || (code >= 0x2028 && code <= 0x202e);
};
/** A fact of a query as text; empty where it is not given. */
export const fact = ({ facts }, name) => String(facts[name] ?? "");
/** The quoted cell, followed by a remark that holds further values of the file. */
export const foundWith = (remark) => (query) => `${quoted(query.found ?? "")} (${remark(query)})`;
