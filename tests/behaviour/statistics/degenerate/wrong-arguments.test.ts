import { describe, expect, it } from "vitest";
import { table } from "./table.js";
import { ending, trialsOf } from "./trials.js";

describe("wrong arguments: an error that names the argument and, where there is one, the index", () => {
  it.each(table)("$name", (row) => {
    const trials = trialsOf(row);
    const not = trials
      .map((trial) => `${trial.what}: ${ending(row, trial)}`)
      .filter((line) => !line.endsWith(": refused"));
    expect(not).toEqual([]);
  });

  it("every function is tried with something wrong, but those that take a fit and nothing else", () => {
    const untried = table.filter((row) => trialsOf(row).length === 0).map(({ name }) => name);
    expect(untried).toEqual(["hazardResiduals", "hazardConcordance", "testTogether"]);
  });
});
