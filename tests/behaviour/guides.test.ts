import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const root = fileURLToPath(new URL("../../", import.meta.url));

const guides = [
  "DEVELOPERS.md",
  ...readdirSync(`${root}src`, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith("README.md"))
    .map((path) => `src/${path.replaceAll("\\", "/")}`),
];

/** What a guide names as a place in the source or the tests: a path with a slash, in code marks. */
const placesIn = (text: string): readonly string[] =>
  [...text.matchAll(/`([\w.-]+(?:\/[\w.*<>-]+)*\/[\w.-]*)`/g)]
    .map(([, place]) => place!)
    .filter((place) => !/^\d|[*<>]/.test(place) && !place.startsWith("pulley-outcomes/"));

/** Whether a place is there, from the root, from src/, from the tests, or from the folder of the guide. */
const isThere = (place: string, guide: string): boolean =>
  ["", "src/", "tests/", "src/statistics/", `${dirname(guide)}/`, `${dirname(guide)}/../`].some((from) =>
    existsSync(`${root}${from}${place}`),
  );

/** Folders that a command makes, and parts of the package that a build makes. */
const isMade = (place: string): boolean => /^(\.\.\/)?(dist|demo-report|node_modules)(\/|$)/.test(place);

describe("the guides", () => {
  it.each(guides)("%s names places that are there", (guide) => {
    const text = readFileSync(`${root}${guide}`, "utf8");
    expect(placesIn(text).filter((place) => !isMade(place) && !isThere(place, guide))).toEqual([]);
  });

  it("are found, and so are the places in them", () => {
    expect(guides.length).toBeGreaterThan(6);
    expect(placesIn("see `src/cli/gone.ts` and `schema/`, not `a word`")).toEqual([
      "src/cli/gone.ts",
      "schema/",
    ]);
    expect(isThere("cli/gone.ts", "DEVELOPERS.md")).toBe(false);
  });
});
