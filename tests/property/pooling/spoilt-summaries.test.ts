import { expect, it } from "vitest";
import { summariesText } from "../../../src/pooling/index.js";
import { seededGenerator } from "../../../src/statistics/index.js";
import { sha256, threeSummaries } from "../../behaviour/pooling/three-sites.js";
import { judgeSummary } from "../../fuzz/summaries.js";

it("a spoilt summary is refused by name, or pools as any other", () => {
  const [first, second] = threeSummaries().map((summary) => summariesText([summary]));
  const seen = { refused: 0, pooled: 0 };
  for (let stream = 0; stream < 150; stream++) {
    const draw = seededGenerator(31, stream);
    seen[judgeSummary({ sound: first!, other: second! }, { draw, sha256 })]++;
  }
  expect(seen.refused).toBeGreaterThan(100);
});
