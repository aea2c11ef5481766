import { expect, it } from "vitest";
import { frenchLevels, levelAt } from "../../../src/synthetic/levels.js";

it.each([
  ["5+", 10],
  ["6a", 11],
  ["7a", 17],
  ["8a", 23],
  ["9a", 29],
  ["9b+", 32],
])(
  "level %s is number %i of the common scale, Draper et al. 2015, Sports Technology 8:88",
  (level, number) => {
    expect(frenchLevels.indexOf(level)).toBe(number - 1);
  },
);

it("levels end where the scale ends, Draper et al. 2015, Sports Technology 8:88", () => {
  expect(frenchLevels).toHaveLength(32);
  expect(levelAt(40)).toBe("9b+");
  expect(levelAt(-3)).toBe("1");
});
