// Days or spans: which of the two is nearer the truth, where, and what would a rule choose?
// node tests/honesty/built/tests/honesty/inexact-returns/main.js [--draws N] > draws.jsonl
// A cohort is one line; a run that is stopped early has as many of each kind as of any other.
import { parseArgs } from "node:util";
import { truthOf } from "../cohorts/truth.js";
import { drawOne } from "./draw.js";
import { lives, programs } from "./programs.js";

const { values } = parseArgs({ options: { draws: { type: "string", default: "100" } } });
const sizes = [40, 80, 200];
const truths = new Map(lives.map((life) => [life, truthOf(life)]));
for (let stream = 0; stream < Number(values.draws); stream++)
  for (const program of programs)
    for (const n of sizes)
      process.stdout.write(
        `${JSON.stringify(drawOne(program, { n, stream, truth: truths.get(program.life)! }))}\n`,
      );
