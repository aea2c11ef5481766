/**
 * Makes the picture of the README: the return curves of ring and tape at equal grade, as the demo draws them from the one-clinic cohort.
 * With `--check` nothing is written, and a picture that differs from the committed one ends with exit code 1.
 */
import { readFile, writeFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { buildReport } from "../cli/build-report.js";

const cohort = new URL("../../synthetic-data/one-clinic/", import.meta.url);
const picture = new URL("synthetic-return-by-treatment.svg", cohort);

const silent = { say: () => {}, notice: () => {}, progress: () => {} };
const { files } = await buildReport(
  fileURLToPath(new URL("study.yaml", cohort)),
  { choice: "written", smallest: 5 },
  silent,
);
const drawn = files.find(({ path }) => /figures\/.*standardised.*\.svg$/.test(path));
if (drawn === undefined)
  throw new Error("the report of the one-clinic cohort holds no curve of the groups like for like");

const committed = await readFile(picture, "utf8").catch(() => null);
if (drawn.content === committed) {
  process.stdout.write("the README's picture: as committed\n");
} else if (process.argv.includes("--check")) {
  process.stderr.write(
    'the README\'s picture differs from the committed one; run "npm run generate" and look at it\n',
  );
  process.exitCode = 1;
} else {
  await writeFile(picture, drawn.content);
  process.stdout.write("the README's picture: written\n");
}
