import { expect, it } from "vitest";
import { seededGenerator } from "../../../src/statistics/index.js";
import { judgeSummary, sha256, soundSummaries } from "../../fuzz/summaries.js";

it("a spoilt summary is refused by name, or pools as any other", () => {
  const files = soundSummaries();
  const seen = { refused: 0, pooled: 0 };
  for (let stream = 0; stream < 150; stream++) {
    const draw = seededGenerator(31, stream);
    seen[judgeSummary(files, { draw, sha256 })]++;
  }
  expect(seen.refused).toBeGreaterThan(100);
});
