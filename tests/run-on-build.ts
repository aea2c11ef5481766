import { fileURLToPath } from "node:url";

const [source, build] = ["../src/", "../dist/"].map((path) => fileURLToPath(new URL(path, import.meta.url)));

/**
 * A plugin by which tests that import src/ get dist/, compiled from it by `npm test` just before: the engine loads
 * that in a fraction of the time, and runs it as users do. Imports computed as they run go by tested-module.ts.
 */
export const runOnBuild = {
  name: "run-on-build",
  enforce: "pre" as const,
  resolveId(imported: string, importer: string | undefined) {
    if (importer === undefined || !imported.startsWith(".")) return null;
    const file = fileURLToPath(new URL(imported, `file://${importer.split("?")[0]}`));
    if (!file.startsWith(source!)) return null;
    return { id: `${build}${file.slice(source!.length).replace(/\.ts$/, ".js")}`, external: true };
  },
};
