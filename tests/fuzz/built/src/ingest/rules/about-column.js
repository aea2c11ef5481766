/** A query about a whole column, told by one of its rows: it names no row. */
export const askAboutColumn = ({ file, columnNames }, { column, ...about }) => ({
    ...about,
    severity: "look-at",
    file,
    row: null,
    column: columnNames?.[column] ?? column,
    injury: null,
});
/** How many standard errors of a count are taken for more than chance (common practice, no source). */
const beyondChance = 3;
/**
 * Whether a count lies above what chance would give by more than so many standard errors of the binomial count:
 * count > n p + errors sqrt(n p (1 - p)).
 */
export function exceedsChance({ count, n, share }, errors = beyondChance) {
    return count > n * share + errors * Math.sqrt(n * share * (1 - share));
}
