import { describe, expect, it } from "vitest";
import { nearest } from "../../../src/schema/near.js";

describe("the word that a misspelt one is nearest to", () => {
  it.each([
    ["one slip in a short word", "rign", "ring"],
    ["two slips in a short word are another word", "rgn", "rings", null],
    ["a swap and a letter in five letters are two slips", "cirmpp", "crimp", null],
    ["two slips in a longer word", "treatmnet_strt", "treatment_start"],
    ["three slips in a longer word", "tretmnt_strt", "treatment_start", null],
    ["a letter that is all of the word", "x", "y", null],
    ["nothing", "", "ring", null],
  ])("%s: %s for %s", (_, word, candidate, found: string | null = candidate) => {
    expect(nearest(word, [candidate])).toBe(found);
  });

  it("of several the nearest, of equally near ones the first", () => {
    expect(nearest("crimpd", ["crimped", "crimps", "crimp"])).toBe("crimped");
    expect(nearest("treatmant", ["treadmont", "treatment"])).toBe("treatment");
  });
});
