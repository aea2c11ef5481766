import { distinctTimes } from "../../shared/distinct-times.js";
import { type Keys, profilesOf } from "./profiles.js";
import type { SortedTable } from "./risk-set-table.js";

/** Lines in any order, several of them of one profile and time perhaps. */
export interface Lines extends Keys {
  readonly entered: ArrayLike<number>;
  readonly censored: ArrayLike<number>;
  readonly events: readonly ArrayLike<number>[];
}

/** Where each line stands among all pairs of profile and time, and those pairs that have a row, in order. */
function cellsOf(lines: Lines) {
  const profiles = profilesOf(lines);
  // times below 0 are told apart as well: shifted, so that the smallest is 0
  let lowest = 0;
  for (let line = 0; line < lines.times.length; line++) lowest = Math.min(lowest, lines.times[line]!);
  const { times, position } = distinctTimes(Float64Array.from(lines.times, (time) => time - lowest));
  const place = new Map<number, number>();
  const key = new Float64Array(position.length);
  for (let line = 0; line < position.length; line++) {
    key[line] = profiles.of[line]! * times.length + position[line]!;
    if (carriesAnything(lines, line)) place.set(key[line]!, 0);
  }
  const kept = Float64Array.from(place.keys()).sort();
  for (let i = 0; i < kept.length; i++) place.set(kept[i]!, i);
  return { place, key, count: kept.length };
}

const carriesAnything = ({ entered, censored, events }: Lines, line: number): boolean =>
  entered[line]! > 0 || censored[line]! > 0 || events.some((ofCause) => ofCause[line]! > 0);

/** One line a profile and time, sorted; lines without a row are dropped. Counts are added, so the order of what comes in does not matter. */
export function tally(lines: Lines): SortedTable {
  const { place, key, count } = cellsOf(lines);
  const example = new Int32Array(count);
  const empty = (): number[] => new Array<number>(count).fill(0);
  const entered = empty();
  const censored = empty();
  const causes = causesSeen(lines);
  const events = causes.map(empty);
  for (let line = 0; line < key.length; line++) {
    const at = place.get(key[line]!);
    if (at === undefined) continue;
    example[at] = line;
    entered[at]! += lines.entered[line]!;
    censored[at]! += lines.censored[line]!;
    for (let k = 0; k < causes.length; k++) events[k]![at]! += causes[k]![line]!;
  }
  const taken = (values: ArrayLike<number> | undefined): number[] =>
    Array.from(example, (line) => values?.[line] ?? 0);
  const { names, columns } = lines.covariates ?? { names: [], columns: [] };
  return {
    times: taken(lines.times),
    entered,
    censored,
    events,
    groups: taken(lines.groups),
    strata: taken(lines.strata),
    covariates: { names: [...names], columns: columns.map(taken) },
  };
}

/** The columns of events up to the last cause that anybody had: a cause that nobody had at the end of the list changes no table. */
function causesSeen({ events }: Lines): readonly ArrayLike<number>[] {
  let last = events.length;
  const isSilent = (ofCause: ArrayLike<number>): boolean => {
    for (let line = 0; line < ofCause.length; line++) if (ofCause[line]! > 0) return false;
    return true;
  };
  while (last > 0 && isSilent(events[last - 1]!)) last--;
  return events.slice(0, last);
}
