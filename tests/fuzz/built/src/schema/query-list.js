/** How many alike queries are kept one by one; those beyond are counted on the last that is kept. */
const keptOfAKind = 200;
/**
 * An empty list. Alike means: same file, code, column and severity.
 *
 * @param keep "some" keeps 200 of a kind and counts the rest, "every" keeps all of them
 */
export function queryList(keep = "some") {
    const room = keep === "every" ? Number.POSITIVE_INFINITY : keptOfAKind;
    const kept = [];
    const kinds = new Map();
    return {
        add: (query) => {
            const name = `${query.code}\n${query.severity}\n${query.column ?? ""}\n${query.file}`;
            const kind = kinds.get(name) ?? { kept: 0, last: -1, more: 0 };
            kinds.set(name, kind);
            if (kind.kept < room) {
                kind.kept += 1;
                kind.last = kept.push(alone(query)) - 1;
                kind.more += timesOf(query) - 1;
            }
            else {
                kind.more += timesOf(query);
            }
        },
        all: () => {
            const queries = [...kept];
            for (const { last, more } of kinds.values()) {
                const query = queries[last];
                if (more > 0 && query !== undefined)
                    queries[last] = { ...query, facts: { ...query.facts, more } };
            }
            return queries;
        },
    };
}
/** How many doubts a query stands for: one, and those counted on it. */
export const timesOf = ({ facts }) => 1 + Number(facts.more ?? 0);
function alone(query) {
    if (query.facts.more === undefined)
        return query;
    const { more: _, ...facts } = query.facts;
    return { ...query, facts };
}
