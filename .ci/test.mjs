// Runs the test suite and prints the one line that is counted: "N passed, N failed, N skipped".
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

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
  { stdio: "inherit", env: { ...process.env, NO_COLOR: "1" } },
);

let counts = { numPassedTests: 0, numFailedTests: 0, numPendingTests: 0, success: false };
try {
  counts = JSON.parse(readFileSync(outcome, "utf8"));
} catch {
  // no outcome file: the runner did not get that far, and its own words are above
}
rmSync(folder, { recursive: true, force: true });
process.stdout.write(
  `${counts.numPassedTests} passed, ${counts.numFailedTests} failed, ${counts.numPendingTests} skipped\n`,
);
process.exit(ran.status === 0 && counts.success && counts.numPassedTests > 0 ? 0 : 1);
