import { seededGenerator } from "../../../src/statistics/index.js";

export interface SetOfSites {
  readonly set: number;
  readonly traits: string;
  readonly y: readonly number[];
  readonly v: readonly number[];
  readonly x: readonly number[];
}

const spreads = [
  "none",
  "like the errors",
  "ten times the errors",
  "a hundred times the errors",
  "estimates equal",
] as const;
const factor = {
  none: 0,
  "like the errors": 1,
  "ten times the errors": 10,
  "a hundred times the errors": 100,
  "estimates equal": 0,
};
const errors = ["alike", "over two powers of ten", "over four powers of ten", "one huge site"] as const;
const rounded = (value: number): number => Number(value.toPrecision(6));

function drawSet(seed: number, set: number): SetOfSites {
  const { normal, uniform, integer } = seededGenerator(seed, set);
  const pick = <T>(from: readonly T[]): T => from[integer(from.length)]!;
  const [spread, kind, count] = [pick(spreads), pick(errors), 2 + integer(19)];
  const width = {
    alike: 0.2,
    "over two powers of ten": 2,
    "over four powers of ten": 4,
    "one huge site": 0.5,
  }[kind];
  const v = Array.from({ length: count }, (_, i) =>
    rounded(
      0.02 *
        Math.exp(Math.log(10) * width * (uniform() - 0.5)) *
        (kind === "one huge site" && i === 0 ? 1e-3 : 1),
    ),
  );
  const middle = 0.15 * factor[spread];
  const y = v.map((variance) =>
    spread === "estimates equal" ? 0.4 : rounded(0.3 + middle * normal() + Math.sqrt(variance) * normal()),
  );
  return {
    set,
    traits: `${count} sites, errors ${kind}, spread: ${spread}`,
    y,
    v,
    x: y.map(() => rounded(3 * normal())),
  };
}

/** The number of a set is its stream, so each can be drawn again alone. */
export const drawSites = ({
  count,
  seed,
}: {
  readonly count: number;
  readonly seed: number;
}): readonly SetOfSites[] => Array.from({ length: count }, (_, i) => drawSet(seed, i + 1));
