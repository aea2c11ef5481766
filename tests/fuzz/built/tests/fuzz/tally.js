export const noTally = () => ({ kinds: {}, faults: [], megabytes: 0 });
/** Counts one file. */
export function addTo({ kinds }, file) {
    const one = { read: 0, refused: 0, slowest: file.seconds, largest: file.bytes };
    one[file.verdict] = 1;
    kinds[file.kind] = together(kinds[file.kind], one);
}
/** Counts added, largest of the two kept. */
export const together = (so, more) => so === undefined
    ? more
    : {
        read: so.read + more.read,
        refused: so.refused + more.refused,
        slowest: Math.max(so.slowest, more.slowest),
        largest: Math.max(so.largest, more.largest),
    };
/** The counts as a page. */
export function pageOf({ kinds, faults, megabytes }, { files, bounds, }) {
    const rows = Object.entries(kinds)
        .sort(([one], [other]) => (one < other ? -1 : 1))
        .map(([name, { read, refused, slowest, largest }]) => `| ${name} | ${read + refused} | ${read} | ${refused} | ${slowest.toFixed(2)} s | ${(largest / 1e6).toFixed(2)} MB |`);
    return [
        "# Malformed files",
        "",
        `${files} files made by number (\`npm run fuzz\`), each read as a sheet, as a cohort and as a stream. Bounds: ${bounds.seconds} s a file,`,
        `${bounds.megabytes} MB a process. Most memory of a process: ${megabytes.toFixed(0)} MB. Faults: ${faults.length}.`,
        "",
        "| kind | files | read | refused with a reason | slowest | largest |",
        "| --- | --- | --- | --- | --- | --- |",
        ...rows,
        "",
        ...faults.slice(0, 20).map(({ number, kind, what }) => `- ${number} (${kind}): ${what}`),
        "",
    ].join("\n");
}
