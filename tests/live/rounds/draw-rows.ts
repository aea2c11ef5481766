import { type Generator, seededGenerator } from "../../../src/statistics/index.js";

/** One row a subject, or several; what one site has of them. SYNTHETIC. */
export interface Row {
  readonly site: number;
  readonly stratum: number;
  readonly person: number;
  readonly entry: number;
  readonly time: number;
  readonly event: 0 | 1;
  /** Between which days the event was: left itself for those without. */
  readonly left: number;
  readonly right: number | null;
  readonly group: 0 | 1;
  readonly age: number;
}

export interface SetOfRows {
  readonly set: number;
  readonly traits: string;
  readonly late: boolean;
  readonly sites: readonly (readonly Row[])[];
}

interface Traits {
  readonly grain: "days" | "weeks" | "four weeks";
  readonly late: boolean;
  readonly strata: 1 | 3;
  readonly together: number;
}

const grains = { days: 1, weeks: 7, "four weeks": 28 } as const;

function drawRow(
  at: { readonly site: number; readonly person: number; readonly own: number; readonly traits: Traits },
  { uniform, normal, integer }: Generator,
): Row {
  const { site, person, own, traits } = at;
  const group = uniform() < 0.3 + 0.1 * (site % 4) ? 1 : 0;
  const age = Number((33 + 8 * normal() + 2 * site).toFixed(1));
  const log = 4.3 + 0.1 * site + own - 0.3 * group + 0.01 * (age - 33) + 0.5 * normal();
  const back = Math.exp(log);
  const followed = 30 + 300 * uniform();
  const step = grains[traits.grain];
  const time = step * Math.max(1, Math.ceil(Math.min(back, followed) / step));
  const event = back <= followed ? 1 : 0;
  // seen every four weeks or so: the first visit may already find somebody back
  const visit = 21 + integer(15);
  const left = event === 1 ? Math.floor((time - 1) / visit) * visit : time;
  return {
    site,
    stratum: integer(traits.strata),
    person,
    entry: traits.late && uniform() < 0.4 ? Math.floor(uniform() * time * 0.5) : 0,
    time,
    event,
    left,
    right: event === 1 ? left + visit : null,
    group,
    age,
  };
}

function drawSet(seed: number, set: number): SetOfRows {
  const generator = seededGenerator(seed, set);
  const { integer, uniform, normal } = generator;
  const pick = <T>(from: readonly T[]): T => from[integer(from.length)]!;
  const traits: Traits = {
    grain: pick(["days", "weeks", "four weeks"] as const),
    late: pick([false, true]),
    strata: pick([1, 3] as const),
    together: pick([0, 0.3, 0.6]),
  };
  let people = 0;
  const sites = Array.from({ length: 2 + integer(4) }, (_, site) => {
    const rows: Row[] = [];
    for (const size = 8 + integer(30); rows.length < size; people++) {
      const own = 0.3 * normal();
      const fingers = uniform() < traits.together ? 2 + integer(2) : 1;
      for (let finger = 0; finger < fingers; finger++)
        rows.push(drawRow({ site, person: people, own, traits }, generator));
    }
    return rows;
  });
  const { grain, late, strata, together } = traits;
  return {
    set,
    late,
    sites,
    traits: `${sites.map((rows) => rows.length).join(" + ")} rows, ties to ${grain}, late entry: ${late}, strata: ${strata}, several injuries: ${together}`,
  };
}

/** The number of a set is its stream, so each can be drawn again alone. */
export const drawRows = ({ count, seed }: { readonly count: number; readonly seed: number }) =>
  Array.from({ length: count }, (_, i) => drawSet(seed, i + 1));
