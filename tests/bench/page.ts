import type { BenchCase } from "./case.js";
import type { Timing } from "./timing.js";

/** Everything found about one case. */
export interface CaseResult {
  readonly bench: BenchCase;
  /** Size at which ours and the peer were run in turn. */
  readonly n: number;
  readonly ours: Timing;
  readonly peer: Timing | null;
  /** Log of the ratio of the times over the log of the ratio of the sizes; null where one size was run. */
  readonly growth: { readonly exponent: number; readonly from: number; readonly to: number } | null;
  readonly checked: { readonly n: number; readonly difference: number } | null;
}

export interface Start {
  readonly help: number;
  readonly bare: number;
}

const short = (value: number): string => (value >= 100 ? value.toFixed(0) : value.toPrecision(2));
const milliseconds = (seconds: number): string => `${short(seconds * 1000)} ms`;
const thousands = (n: number): string => n.toLocaleString("en").replaceAll(",", " ");

function checkedCell({ bench, checked }: CaseResult): string {
  if (checked === null) return bench.checked === null ? "no value" : "not at these sizes";
  const met = checked.difference <= bench.checked!.tolerance;
  return `${met ? "met" : "**NOT MET**"}, ${checked.difference.toExponential(0)}`;
}

function rowOf(result: CaseResult): string {
  const { bench, n, ours, peer, growth } = result;
  const ratio = peer === null ? null : ours.seconds / peer.seconds;
  const ratioCell =
    ratio === null ? "no peer here" : ratio <= bench.target ? short(ratio) : `**${short(ratio)}**`;
  const cells = [
    bench.name,
    bench.what,
    thousands(n),
    milliseconds(ours.seconds),
    milliseconds(ours.first),
    peer === null ? "" : milliseconds(peer.seconds),
    ratioCell,
    bench.target,
    growth === null
      ? ""
      : `${growth.exponent.toFixed(2)} (${thousands(growth.from)} to ${thousands(growth.to)})`,
    `${Math.round(ours.megabytes)} (${Math.round(ours.megabytesOfData ?? 0)})`,
    peer === null ? "" : Math.round(peer.megabytes),
    checkedCell(result),
  ];
  return `| ${cells.join(" | ")} |`;
}

/** The results as a page. */
export function pageOf(
  results: readonly CaseResult[],
  {
    peers,
    start,
    version,
  }: { readonly peers: string | null; readonly start: Start; readonly version: string },
): string {
  return `# Benchmarks

Made by \`npm run bench\`, version ${version}, Node ${process.versions.node}, peers: ${peers ?? "none, R is not installed here"}. One thread. Ours and the peer ran in turn on
the same machine, each in a process of its own; medians of warm runs. Only ratios mean anything elsewhere. Ours starts from unsorted
columns and ends with the finished result. Bold: above the target.

| case | what | n | ours | first call | peer | ratio | target | growth exponent | our peak memory, MB (before the first run) | peer's memory beyond its data, MB | checked value |
| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
${results.map(rowOf).join("\n")}

Peers: ${[
    ...new Set(
      results.map(
        ({ bench }) =>
          `${bench.peer.name} (${results
            .filter((one) => one.bench.peer.name === bench.peer.name)
            .map((one) => one.bench.name)
            .join(", ")})`,
      ),
    ),
  ].join("; ")}.

Cold start: \`--help\` ${start.help.toFixed(0)} ms, the bare runtime ${start.bare.toFixed(0)} ms, difference ${(start.help - start.bare).toFixed(0)} ms.
`;
}
