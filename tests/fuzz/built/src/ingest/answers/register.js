import { idText, shortHash } from "./query-id.js";
/** Sixty bits: among a million doubts, two share an id by chance in fewer than one of a million files. */
const usualLength = 12;
const longestLength = 48;
/**
 * A register of ids. Two doubts that the short hash cannot tell apart are told apart by a longer one; two equal doubts
 * about one row by their ordinal.
 *
 * @param names the rows of the files as they were read, before any answer
 * @param options length: digits of an id
 */
export function register(names, { length = usualLength } = {}) {
    const taken = new Map();
    const idOf = (text) => {
        for (let digits = length; digits <= longestLength; digits += 4) {
            const id = shortHash(text, digits);
            const holder = taken.get(id) ?? text;
            if (holder !== text)
                continue;
            taken.set(id, text);
            return id;
        }
        throw new Error("two doubts share 240 bits of a hash: this is a fault of the toolkit");
    };
    const nameAll = (queries) => {
        const ordinals = new Map();
        return queries.map((query) => {
            const { table, rowName, person } = names.of(query);
            const first = idText(query, { table, rowName }, 1);
            const ordinal = (ordinals.get(first) ?? 0) + 1;
            ordinals.set(first, ordinal);
            const text = ordinal === 1 ? first : idText(query, { table, rowName }, ordinal);
            return { id: idOf(text), query, table, person };
        });
    };
    return { nameAll };
}
