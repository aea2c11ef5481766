/**
 * Makes every generated file anew: the list of methods, the schemas, the table of rules, the synthetic cohorts, the font table, the
 * notebooks' outputs and the README's picture.
 * With `--check` nothing is written, and a file that differs from what is committed ends with exit code 1.
 */
import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";

const makers = ["font-widths", "methods", "schemas", "rules", "synthetic-data", "notebooks", "pictures"];

for (const maker of makers) {
  const script = fileURLToPath(new URL(`./${maker}.js`, import.meta.url));
  const { status } = spawnSync(process.execPath, [script, ...process.argv.slice(2)], { stdio: "inherit" });
  if (status !== 0) {
    process.stderr.write(`${maker}: see above\n`);
    process.exitCode = 1;
  }
}
