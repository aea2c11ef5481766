import { normalUpperTail, seededGenerator } from "../../../src/statistics/index.js";
import { clusteredBand, simultaneousBand } from "../../../src/statistics/survival/bands/index.js";
import type { Finding } from "../tally.js";
import { severalFingersOf } from "./several-fingers.js";

const median = 84;
const shape = 2.6;
const notYet = (day: number): number => 0.5 ** ((day / median) ** shape);
/** Days by which a tenth and nine tenths are back. */
const within = [0.9, 0.1].map((share) => median * (Math.log(share) / Math.log(0.5)) ** (1 / shape));

/** A band as an interval that holds 0 where no day of the true curve lies outside: the greatest lower limit and the least upper one, less the truth. */
function bandFinding(
  name: string,
  band: {
    readonly times: readonly number[];
    readonly lower: readonly number[];
    readonly upper: readonly number[];
  },
): Finding {
  const { times, lower, upper } = band;
  if (times.length === 0) return { kind: "interval", name, truth: 0, value: null, lower: null, upper: null };
  // steps hold until the next one: the truth is lowest just before it
  const until = (at: number) => Math.min(times[at + 1] ?? within[1]!, within[1]!);
  return {
    kind: "interval",
    name,
    truth: 0,
    value: 0,
    lower: Math.max(...times.map((_, at) => lower[at]! - notYet(Math.max(times[at]!, until(at))))),
    upper: Math.min(...times.map((day, at) => upper[at]! - notYet(Math.max(day, within[0]!)))),
  };
}

/** Bands over persons, and as if fingers were independent. */
export function bandFindings(at: {
  readonly n: number;
  readonly seed: number;
  readonly stream: number;
}): readonly Finding[] {
  const generator = seededGenerator(at.seed, at.stream);
  const { persons: clusters, alike } = severalFingersOf(at.n, generator);
  const back = alike(0.6).map((z) => median * (-Math.log(normalUpperTail(z)) / Math.LN2) ** (1 / shape));
  const seen = back.map(() => 40 + 320 * generator.uniform());
  const rows = {
    times: back.map((day, row) => Math.min(day, seen[row]!)),
    events: back.map((day, row) => (day <= seen[row]! ? 1 : 0)),
  };
  const options = { from: within[0]!, to: within[1]! };
  return [
    bandFinding(
      "band over persons",
      clusteredBand({ ...rows, clusters }, { ...options, seed: at.stream, draws: 1000 }),
    ),
    bandFinding("band; fingers as independent instead", simultaneousBand(rows, options)),
  ];
}
