import { describe, expect, it } from "vitest";
import { walk } from "./walker.js";

const faultsOf = (result: unknown, documented: readonly string[] = []) => walk(result, documented).faults;

describe("what the walker of results finds", () => {
  it.each([
    ["no number", { p: Number.NaN }],
    ["an infinite one, however deep", { groups: [{ limits: [0, Number.POSITIVE_INFINITY] }] }],
    ["one in a typed array", { shares: Float64Array.of(1, Number.NaN) }],
    ["a null without a reason", { estimate: null, reason: null }],
    [
      "a null whose own object tells no reason",
      { reason: "collinear", ratio: { estimate: null, reason: null } },
    ],
    ["limits on one point", { estimate: 2, lower: 2, upper: 2, reason: null }],
    ["limits the wrong way round", { bca: { limits: [3, 2] } }],
    ["what JSON would lose", { limits: undefined }],
    ["a map", { weights: new Map() }],
    ["a function", { figure: () => 1 }],
    ["an object of a class", { day: new Date(0) }],
  ])("%s", (_, result) => {
    expect(faultsOf(result)).not.toEqual([]);
  });

  it.each([
    ["a null with its reason", { estimate: null, reason: "no-rows" }],
    ["nulls under a reason", { lower: [null, null], status: "no-events" }],
    ["a null beside a list of reasons", { coefficients: [1, null], reasons: [null, "collinear"] }],
    ["limits on one point with a reason", { lower: 2, upper: 2, reason: "no-variance" }],
    ["numbers, words and typed arrays", { n: 3, words: ["a"], times: Int32Array.of(1), sound: true }],
  ])("not %s", (_, result) => {
    expect(faultsOf(result)).toEqual([]);
  });

  it("not a null that is documented, by its path", () => {
    expect(faultsOf({ curve: { lower: [null] }, reason: null }, ["curve.lower[]"])).toEqual([]);
    expect(faultsOf({ curve: { upper: [null] }, reason: null }, ["curve.lower[]"])).not.toEqual([]);
  });

  it("gathers the reasons", () => {
    const { reasons } = walk(
      { reason: "no-rows", parts: [{ status: "ok" }, { limitsReason: "no-events" }] },
      [],
    );
    expect([...reasons]).toEqual(["no-rows", "no-events"]);
  });
});
