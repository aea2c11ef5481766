import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  poolSummaries,
  type ReadSummary,
  readSummaries,
  type SiteSummary,
  summariesText,
  unitedSites,
} from "../../../src/pooling/index.js";
import { sha256, threeSummaries } from "../../behaviour/pooling/three-sites.js";

/** Six sites: the three committed ones, and each under another name. */
const sites = (): readonly SiteSummary[] =>
  threeSummaries().flatMap((summary) => {
    const site = `${summary.site}-twin`;
    return [summary, { ...summary, site, description: { ...summary.description, site } }];
  });

type Tree = number | readonly Tree[];

/** A file of each site, or of what was merged before. */
function fileOf(tree: Tree, all: readonly SiteSummary[]): readonly ReadSummary[] {
  if (typeof tree === "number") return [{ file: `${tree}.json`, summary: all[tree]! }];
  const read = tree.flatMap((branch) => fileOf(branch, all));
  const text = summariesText(unitedSites(read));
  return readSummaries({ file: "merged.json", text }, { sha256 });
}

const branch = fc.letrec<{ tree: Tree; leaf: Tree }>((tie) => ({
  leaf: fc.nat(5),
  tree: fc.oneof(
    { maxDepth: 3 },
    tie("leaf"),
    fc.array(tie("tree"), { minLength: 1, maxLength: 4 }) as fc.Arbitrary<Tree>,
  ),
})).tree;

describe("merging summaries", () => {
  it("in any order and by any steps gives the same bytes", () => {
    const all = sites();
    const whole = summariesText(all);
    const results = JSON.stringify(
      poolSummaries(
        all.map((summary) => ({ file: "x", summary })),
        { version: "0", sha256 },
      ),
    );
    const order = fc.shuffledSubarray([0, 1, 2, 3, 4, 5], { minLength: 6 });
    fc.assert(
      fc.property(fc.array(branch, { maxLength: 4 }), order, (trees, rest) => {
        const merged = fileOf([...trees, ...rest], all);
        expect(summariesText(merged.map(({ summary }) => summary))).toBe(whole);
        return true;
      }),
      { seed: 2024, numRuns: 12 },
    );
    fc.assert(
      fc.property(order, (rest) => {
        const read = fileOf(rest, all);
        return JSON.stringify(poolSummaries(read, { version: "0", sha256 })) === results;
      }),
      { seed: 2025, numRuns: 3 },
    );
  });
});
