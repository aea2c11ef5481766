// What one engine computes, a line each: name, tab, fingerprint. Run under every engine by main.ts.
import { createHash } from "node:crypto";
import { call, casesOf, givenFor, table } from "../behaviour/statistics/degenerate/table.js";
import { drawSets } from "../live/draw-sets.js";
import { methods } from "../live/ours.js";
import { fingerprintsOfFunctions } from "./sweep.js";

const randomSets = 60;

const fingerprint = (value: unknown): string =>
  createHash("sha256")
    .update(
      JSON.stringify(value, (_, one) => (ArrayBuffer.isView(one) ? Array.from(one as Float64Array) : one)) ??
        "",
    )
    .digest("hex");

/** Every function of statistics/ over the cohorts of the table of degenerate cases, errors included. */
function* everyFunction(): Generator<readonly [string, string]> {
  for (const row of table) {
    for (const name of casesOf(row)) {
      yield [`${row.name}, ${name}`, fingerprint(answerOf(() => call(row, givenFor(row, name))))];
    }
  }
}

function answerOf(ask: () => unknown): unknown {
  try {
    return ask();
  } catch (error) {
    return String(error);
  }
}

/** The methods of a report over random data sets of 2 to 200 rows. */
function* everyMethod(): Generator<readonly [string, string]> {
  for (const data of drawSets({ seed: 9, count: randomSets })) {
    for (const [name, figuresOf] of Object.entries(methods)) {
      yield [`${name}, random data set ${data.set}`, fingerprint(answerOf(() => [...figuresOf(data)]))];
    }
  }
}

for (const [name, print] of [...fingerprintsOfFunctions(), ...everyFunction(), ...everyMethod()])
  process.stdout.write(`${name}\t${print}\n`);
