import { type ReturnState, returnStates } from "../cohort/return-states.js";
import { type StateCurve, type StateProbabilities, stateAt } from "../statistics/states/index.js";
import { daysShown } from "./days-shown.js";
import type { ExactStatesOverTime } from "./exact-results.js";

type Point = ExactStatesOverTime["points"][number];

/** The states of the cohort by the names that results give them. */
const named = {
  not_yet: "not_yet",
  back_and_well: "back",
  ruptured_again: "ruptured_again",
  ended_before: "ended_before",
  ended_after: "ended_after",
} as const satisfies Record<Exclude<keyof Point, "day">, ReturnState>;

/** Share of all in each state over time, and how many are followed in those that can be left. */
export function statesOverTime(states: StateProbabilities, horizonDay: number): ExactStatesOverTime {
  const end = knownUntil(states);
  const of = (name: ReturnState) => curveOf(states, name);
  const sharesAt = (day: number, read: (curve: StateCurve | undefined) => number): Point => ({
    day,
    not_yet: read(of(named.not_yet)),
    back_and_well: read(of(named.back_and_well)),
    ruptured_again: read(of(named.ruptured_again)),
    ended_before: read(of(named.ended_before)),
    ended_after: read(of(named.ended_after)),
  });
  const start = sharesAt(0, (curve) => curve?.initial ?? 0);
  const steps = states.times.slice(0, end).flatMap((day, i) => {
    const isStep = states.states.some(({ entered }) => entered[i]! > 0);
    return isStep ? [sharesAt(day, (curve) => curve?.share[i] ?? 0)] : [];
  });
  const last_day = states.times[end - 1] ?? 0;
  const followed = (name: ReturnState, time: number) =>
    stateAt(states, { time, state: returnStates.indexOf(name) }).atRisk;
  return {
    last_day,
    points: states.times.length === 0 ? [] : steps[0]?.day === 0 ? steps : [start, ...steps],
    number_followed: daysShown(last_day, horizonDay).map((day) => ({
      day,
      not_yet: followed(named.not_yet, day),
      back_and_well: followed(named.back_and_well, day),
    })),
  };
}

const curveOf = (states: StateProbabilities, name: ReturnState): StateCurve | undefined =>
  states.states.find(({ state }) => state === returnStates.indexOf(name));

/** How many of the times are known: from the day on which nobody who is back is followed, it is not known who still is. */
function knownUntil(states: StateProbabilities): number {
  const back = curveOf(states, "back");
  const everBack = back?.share.findIndex((share) => share > 0) ?? -1;
  if (back === undefined || everBack === -1) return states.times.length;
  return Math.max(everBack, back.ended.findLastIndex((ended) => ended > 0) + 1);
}
