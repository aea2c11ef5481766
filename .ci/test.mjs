// Runs the test suite, tells by subject how many tests there are, and prints the one line that is counted:
// "N passed, N failed, N skipped".
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";

// coverage is told by the lines of the source
const measuresCoverage = process.argv.some((word) => word.startsWith("--coverage"));
const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-test-"));
const outcome = join(folder, "outcome.json");
const ran = spawnSync(
  process.execPath,
  [
    "node_modules/vitest/vitest.mjs",
    "run",
    "--config",
    "tests/vitest.config.ts",
    "--reporter=default",
    "--reporter=json",
    `--outputFile.json=${outcome}`,
    ...process.argv.slice(2),
  ],
  {
    stdio: "inherit",
    env: { ...process.env, NO_COLOR: "1", TESTS_RUN_ON: measuresCoverage ? "source" : "build" },
  },
);

const kinds = ["behaviour", "reference", "property"];

/** Lines of a table: for each subject how many tests of each kind there are. */
function bySubject(files) {
  const counts = new Map();
  for (const { name, assertionResults } of files) {
    const [, kind, ...path] = relative(process.cwd(), name).split(/[\\/]/);
    const subject = path.length > 1 ? path[0] : "(the whole)";
    const row = counts.get(subject) ?? kinds.map(() => 0);
    row[kinds.indexOf(kind)] += assertionResults.length;
    counts.set(subject, row);
  }
  const width = Math.max(...[...counts.keys()].map(({ length }) => length));
  const line = (subject, cells) =>
    `  ${subject.padEnd(width)}${cells.map((cell) => String(cell || "").padStart(11)).join("")}`;
  const rows = [...counts].sort(([one], [other]) => (one < other ? -1 : 1));
  return [line("", kinds), ...rows.map(([subject, row]) => line(subject, row))];
}

let counts = { numPassedTests: 0, numFailedTests: 0, numPendingTests: 0, success: false, testResults: [] };
try {
  counts = JSON.parse(readFileSync(outcome, "utf8"));
} catch {
  // no outcome file: the runner did not get that far, and its own words are above
}
rmSync(folder, { recursive: true, force: true });
if (counts.testResults.length > 0) process.stdout.write(`${bySubject(counts.testResults).join("\n")}\n`);
process.stdout.write(
  `${counts.numPassedTests} passed, ${counts.numFailedTests} failed, ${counts.numPendingTests} skipped\n`,
);
process.exit(ran.status === 0 && counts.success && counts.numPassedTests > 0 ? 0 : 1);
