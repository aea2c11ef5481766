import type { Verdict } from "./judge.js";

/** A file that showed a fault, by its number. */
export interface Faulty {
  readonly number: number;
  readonly kind: string;
  readonly what: string;
}

interface KindTally {
  read: number;
  refused: number;
  slowest: number;
  largest: number;
}

/** What became of the files so far. */
export interface Tally {
  readonly kinds: Record<string, KindTally>;
  readonly faults: Faulty[];
  megabytes: number;
}

export const noTally = (): Tally => ({ kinds: {}, faults: [], megabytes: 0 });

/** Counts one file. */
export function addTo(
  { kinds }: Tally,
  file: {
    readonly kind: string;
    readonly verdict: Verdict;
    readonly seconds: number;
    readonly bytes: number;
  },
): void {
  const one = { read: 0, refused: 0, slowest: file.seconds, largest: file.bytes };
  one[file.verdict] = 1;
  kinds[file.kind] = together(kinds[file.kind], one);
}

/** Counts added, largest of the two kept. */
export const together = (so: KindTally | undefined, more: KindTally): KindTally =>
  so === undefined
    ? more
    : {
        read: so.read + more.read,
        refused: so.refused + more.refused,
        slowest: Math.max(so.slowest, more.slowest),
        largest: Math.max(so.largest, more.largest),
      };

/** The counts as a page. */
export function pageOf(
  { kinds, faults, megabytes }: Tally,
  { bounds }: { readonly bounds: { readonly seconds: number; readonly megabytes: number } },
): string {
  const rows = Object.entries(kinds)
    .sort(([one], [other]) => (one < other ? -1 : 1))
    .map(
      ([name, { read, refused, slowest, largest }]) =>
        `| ${name} | ${read + refused} | ${read} | ${refused} | ${slowest.toFixed(2)} s | ${(largest / 1e6).toFixed(2)} MB |`,
    );
  const files = Object.values(kinds).reduce((sum, { read, refused }) => sum + read + refused, 0);
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
