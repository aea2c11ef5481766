import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { distance } from "../remake/compare.js";

const data = new URL("../reference/data/", import.meta.url);
const topics = readdirSync(data, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name);

describe("every folder of reference figures", () => {
  it.each(topics)("%s holds the script that makes it, and a README.md that says so", (topic) => {
    const files = readdirSync(new URL(`${topic}/`, data));
    const scripts = files.filter((name) => /^make.*\.(R|py)$/.test(name));
    expect(scripts).not.toEqual([]);
    const told = readFileSync(new URL(`${topic}/README.md`, data), "utf8");
    for (const script of scripts) expect(told).toContain(script.replace(/^make_workbooks\..*/, "scripts"));
  });

  it.each(topics)("%s: what its scripts load from r/ is there", (topic) => {
    const folder = new URL(`${topic}/`, data);
    for (const name of readdirSync(folder).filter((file) => file.endsWith(".R")))
      for (const [, path] of readFileSync(new URL(name, folder), "utf8").matchAll(/source\("([^"]+\.R)"\)/g))
        expect(existsSync(new URL(path!, folder)), `${topic}/${name}: ${path}`).toBe(true);
  });
});

describe("the comparison of two files of figures", () => {
  const file = (p: number | null, made = "4.2.2") => ({
    software: { R: made },
    cases: [{ id: "freireich", expected: { p, n: 42 } }],
  });

  it("finds nothing in equal figures, whatever made them", () => {
    expect(distance(file(0.25), file(0.25, "4.3.0"))).toEqual({ worst: 0, worstAt: "", unlike: [] });
  });

  it("measures a difference by the larger figure and names its place", () => {
    expect(distance(file(8), file(10))).toEqual({
      worst: 0.2,
      worstAt: "/cases/freireich/expected/p",
      unlike: [],
    });
  });

  it("measures differences of figures that are zero but for rounding by 0.001", () => {
    expect(distance(file(0), file(1e-16)).worst).toBeCloseTo(1e-13, 25);
  });

  it("names a figure that is missing, and one that is there in one file only", () => {
    expect(distance(file(null), file(10)).unlike).toEqual(["/cases/freireich/expected/p"]);
    expect(distance({ a: 1 }, {}).unlike).toEqual(["/a"]);
    expect(distance([1], { 0: 1 }).unlike).toEqual([""]);
  });
});
