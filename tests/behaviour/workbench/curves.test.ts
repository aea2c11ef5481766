import { describe, expect, it } from "vitest";
import { pieces, saidOn, sentences, stepsUntil } from "../../../src/workbench/engine/curve-lines.js";

const step = (day: number, back: number, counts: readonly [number, number]) => ({
  day,
  back,
  lower: null,
  upper: null,
  atRisk: counts[0],
  goingOn: counts[1],
});
/** Of six followed from day 0, one is back on day 10 and one on day 20, one is last seen on day 20 and the others later. */
const steps = [step(0, 0, [6, 6]), step(10, 1 / 6, [6, 5]), step(20, 1 / 3, [5, 3])];
const curve = { label: "tape", n: 6, steps, knownUntil: null };

describe("what a curve says of a day", () => {
  it.each([
    ["before anybody was back", 5, 0, [6, 6]],
    ["on the day of a return, of those followed on it", 10, 1 / 6, [6, 6]],
    ["between two steps, of those who went on", 15, 1 / 6, [5, 5]],
    ["after the last step, of those still followed", 100, 1 / 3, [3, 3]],
  ])("%s", (_, day, back, followed) => {
    expect(saidOn(curve, day)).toMatchObject({ back, followed });
  });

  it("gives the fewest and the most where people joined between two steps", () => {
    const joined = { ...curve, steps: [step(0, 0, [0, 0]), step(10, 0.5, [4, 3])] };
    expect(saidOn(joined, 5)?.followed).toEqual([0, 4]);
    expect(sentences([joined], 5)[1]).toContain("0 to 4 of 6 followed");
  });

  it("says that nothing is known after the last one was lost, and goes on where all had an end", () => {
    const lost = { ...curve, knownUntil: 20 };
    expect(saidOn(lost, 20)).not.toBeNull();
    expect(saidOn(lost, 21)).toBeNull();
    expect(sentences([lost], 21)[1]).toBe("tape: not known, since nobody was followed beyond day 20.");
    expect(stepsUntil(lost, 90).at(-1)?.day).toBe(20);
    expect(stepsUntil(curve, 90).at(-1)).toMatchObject({ day: 90, back: 1 / 3, atRisk: 3 });
  });

  it("is thin from where fewer than five are followed", () => {
    expect(pieces(stepsUntil(curve, 90))).toEqual([
      { from: 0, to: 2, isFew: false },
      { from: 3, to: 3, isFew: true },
    ]);
  });
});
