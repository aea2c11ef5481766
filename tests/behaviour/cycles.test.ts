import { describe, expect, it } from "vitest";
import { importsOf, meant, parsed, type SourceFile, sourceFiles } from "./source-tree.js";

type Arrows = ReadonlyMap<string, ReadonlySet<string>>;

/** What each file imports from src/, types included. */
const importsBetween = (files: readonly SourceFile[]): Arrows =>
  new Map(
    files.map((file) => [
      file.path,
      new Set(
        importsOf(file)
          .filter(({ from }) => from.startsWith("."))
          .map(({ from }) => meant(file.path, from).replace(/\.js$/, ".ts")),
      ),
    ]),
  );

/** The same arrows between the folders of the files. */
function betweenFolders(arrows: Arrows): Arrows {
  const folderOf = (path: string) => path.slice(0, path.lastIndexOf("/"));
  const folders = new Map<string, Set<string>>();
  for (const [from, targets] of arrows) {
    const here = folders.get(folderOf(from)) ?? new Set<string>();
    for (const to of targets) if (folderOf(to) !== folderOf(from)) here.add(folderOf(to));
    folders.set(folderOf(from), here);
  }
  return folders;
}

/** What can be reached from one place by one arrow or more. */
function reachedFrom(start: string, arrows: Arrows): ReadonlySet<string> {
  const reached = new Set<string>();
  const open = [start];
  for (let place = open.pop(); place !== undefined; place = open.pop())
    for (const next of arrows.get(place) ?? []) {
      if (reached.has(next)) continue;
      reached.add(next);
      open.push(next);
    }
  return reached;
}

const inCircles = (arrows: Arrows): string[] =>
  [...arrows.keys()].filter((place) => reachedFrom(place, arrows).has(place));

const within = (folder: string): Arrows =>
  importsBetween(sourceFiles.filter(({ path }) => path.startsWith(folder) && !path.endsWith("index.ts")));

/** The folders of the hazards regression: each may import from those before it. */
const hazards = [
  "layout",
  "likelihood",
  "fit",
  "prediction",
  "penalised",
  "diagnostics",
  "clusters",
  "frailty",
];

describe("what imports what", () => {
  it("never leads back to the same file, by types neither", () => {
    expect(inCircles(importsBetween(sourceFiles))).toEqual([]);
  });

  it("never leads back to the same folder of the statistics", () => {
    expect(inCircles(betweenFolders(within("statistics/")))).toEqual([]);
  });

  it("goes one way through the hazards regression", () => {
    const back = [...betweenFolders(within("statistics/hazards/"))].flatMap(([from, targets]) =>
      [...targets]
        .filter((to) => to.startsWith("statistics/hazards/"))
        .filter((to) => hazards.indexOf(to.split("/")[2]!) > hazards.indexOf(from.split("/")[2]!))
        .map((to) => `${from} imports from ${to}`),
    );
    expect(back).toEqual([]);
    expect(
      [...betweenFolders(within("statistics/hazards/")).keys()].map((path) => path.split("/")[2]),
    ).toEqual(expect.arrayContaining(hazards));
  });

  it("is seen where it leads back over three files, and by a type", () => {
    const files = [
      parsed("a/one.ts", 'import { two } from "../b/two.js";'),
      parsed("b/two.ts", 'import type { Three } from "./three.js";'),
      parsed("b/three.ts", 'export { one } from "../a/one.js";'),
      parsed("b/four.ts", 'import { two } from "./two.js";'),
    ];
    expect(inCircles(importsBetween(files))).toEqual(["a/one.ts", "b/two.ts", "b/three.ts"]);
    expect(inCircles(betweenFolders(importsBetween(files)))).toEqual(["a", "b"]);
  });
});
