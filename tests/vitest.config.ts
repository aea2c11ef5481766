import { defineConfig } from "vitest/config";
import { BaseSequencer, type TestSpecification } from "vitest/node";
import { runOnBuild } from "./run-on-build.js";

/**
 * Files that need modules of their own: they put another module in the place of one that the code imports, or draw the
 * same picture twice.
 */
const apart = [
  "tests/behaviour/cli/writing/{killed,not-ours}.test.ts",
  "tests/behaviour/report-render/png.test.ts",
];

/** Files apart come first: between the others each would end a process, and the next file would load everything again. */
class ApartFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isApart = ({ project }: TestSpecification) => project.name === "apart";
    return [...sorted.filter(isApart), ...sorted.filter((file) => !isApart(file))];
  }
}

const shared = {
  root: new URL("..", import.meta.url).pathname,
  setupFiles: ["tests/fail-on-console.ts", "tests/remove-folders.ts"],
  testTimeout: 60_000,
  hookTimeout: 60_000,
};

// Loading the source anew for each file of tests takes longer than most of them run. The functions under test keep
// nothing from one call to the next, so the files share the loaded modules; a process each, for folder and time zone.
export default defineConfig({
  test: {
    maxWorkers: "100%",
    sequence: { sequencer: ApartFirst },
    coverage: { provider: "v8", include: ["src/**/*.ts"], reporter: ["text-summary"] },
    projects: [
      {
        plugins: process.env.TESTS_RUN_ON === "build" ? [runOnBuild] : [],
        test: {
          ...shared,
          name: "together",
          setupFiles: [...shared.setupFiles, "tests/draw-pictures-once.ts"],
          include: ["tests/**/*.test.ts"],
          exclude: apart,
          pool: "forks",
          isolate: false,
          server: { deps: { external: [/\/dist\//] } },
        },
      },
      { test: { ...shared, name: "apart", include: apart, pool: "forks" } },
    ],
  },
});
