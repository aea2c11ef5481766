import { defineConfig } from "vitest/config";

/** Files that put another module in the place of one that the code imports: each needs modules of its own. */
const apart = ["tests/behaviour/cli/writing/{killed,not-ours}.test.ts"];

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
    coverage: { provider: "v8", include: ["src/**/*.ts"], reporter: ["text-summary"] },
    projects: [
      {
        test: {
          ...shared,
          name: "together",
          include: ["tests/**/*.test.ts"],
          exclude: apart,
          pool: "forks",
          isolate: false,
        },
      },
      { test: { ...shared, name: "apart", include: apart, pool: "forks" } },
    ],
  },
});
