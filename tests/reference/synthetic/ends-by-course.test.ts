import { describe, expect, it } from "vitest";
import { normalUpperTail } from "../../../src/statistics/shared/distributions.js";
import { timeToFullClimbing } from "../../../src/synthetic/course.js";
import { completeScenario, type ScenarioAsWritten, trueEffects } from "../../../src/synthetic/index.js";

const firstVisit = 3;
const scenarioWith = (ends: NonNullable<ScenarioAsWritten["ends"]>) =>
  completeScenario({
    name: "ends",
    title: "SYNTHETIC",
    seed: 1,
    injuries: 10,
    sites: [{ id: "site-a", referral_delay: { median_days: firstVisit, log_sd: 0, longest_days: 9 } }],
    injury: { grade_mix: { "1": 0, "2": 1, "3": 0, "4a": 0, "4b": 0 } },
    treatment: {
      first: Object.fromEntries(
        ["1", "2", "3", "4a", "4b"].map((grade) => [grade, { tape: 1, ring: 0, surgery: 0, none: 0 }]),
      ) as NonNullable<NonNullable<ScenarioAsWritten["treatment"]>["first"]>,
    },
    ends: { new_rupture_from_week: 0, ...ends },
  });

/** Shares by a day from the laws that the scenario states: the sum over the normal score of the return, in steps of a thousandth. */
function byLaws(scenario: ReturnType<typeof scenarioWith>, landmark: number) {
  const { ends } = scenario;
  const rupture = ends.new_rupture_per_week / 7;
  const step = 0.001;
  let returned = 0;
  let well = 0;
  for (let z = -6 + step / 2; z < 6; z += step) {
    const unitExponential = -Math.log(normalUpperTail(z));
    const time = timeToFullClimbing(scenario, {
      grade: "2",
      treatment: "tape",
      start: firstVisit + 1,
      unitExponential,
    });
    const back = Math.max(1, Math.ceil(time));
    if (back > landmark) continue;
    const givesUp = (ends.gave_up_per_week / 7) * Math.exp(ends.gave_up_by_course * z);
    const density = (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI)) * step;
    const waited = Math.max(0, back - firstVisit - 1);
    const stays = density * Math.exp(-givesUp * waited);
    returned += stays * Math.exp(-rupture * waited);
    const withoutUntil = Math.floor(back - firstVisit + ends.new_rupture_after_return * (landmark - back));
    well += stays * Math.exp(-rupture * withoutUntil);
  }
  return { returned, well };
}

describe("true shares where giving up depends on the course and ruptures come after the return, against the sum over the laws of the scenario", () => {
  it.each([
    { gave_up_per_week: 0.02, gave_up_by_course: 1.2, new_rupture_per_week: 0 },
    { gave_up_per_week: 0.02, gave_up_by_course: -0.8, new_rupture_per_week: 0.004 },
    { gave_up_per_week: 0, new_rupture_per_week: 0.004, new_rupture_after_return: 5 },
    { gave_up_per_week: 0.01, new_rupture_per_week: 0.01, new_rupture_after_return: 0 },
  ])("%j", (ends) => {
    const scenario = scenarioWith(ends);
    const [cell] = trueEffects(scenario, { draws: 40_000 }).cells;
    for (const { day, returned, back_and_well } of cell!.landmarks) {
      const law = byLaws(scenario, day);
      expect(Math.abs(returned.value - law.returned)).toBeLessThan(4 * returned.standard_error + 1e-4);
      expect(Math.abs(back_and_well.value - law.well)).toBeLessThan(4 * back_and_well.standard_error + 1e-4);
    }
  });

  it("nobody gives up with a treatment whose hazard is multiplied by 0: everybody who would be back is", () => {
    const ends = {
      gave_up_per_week: 0.05,
      new_rupture_per_week: 0,
      gave_up_multiplier: { tape: 0, ring: 1, surgery: 1, none: 1 },
    };
    const [cell] = trueEffects(scenarioWith(ends), { draws: 2000 }).cells;
    for (const { returned, returned_if_no_competing_end } of cell!.landmarks)
      expect(returned).toEqual(returned_if_no_competing_end);
  });
});
