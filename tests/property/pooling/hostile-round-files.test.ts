import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, it } from "vitest";
import { PoolingFileError } from "../../../src/pooling/pooling-file-error.js";
import {
  canonicalText,
  firstPoint,
  type PointFile,
  proposePoint,
  readRoundFile,
} from "../../../src/pooling/rounds/index.js";
import { planSchema } from "../../../src/study/index.js";

const sha256 = (content: string) => createHash("sha256").update(content).digest("hex");
const settings = { seed: 20_261_128, numRuns: 400 } as const;

const plan = planSchema.parse({ study: "hostile", title: "Hostile", synthetic: true, data: {} });
const point = firstPoint(plan, { kind: { fit: "hazards", ties: "efron" }, smallestCell: 5, sha256 });
const answer = {
  format: "pulley-outcomes round 1",
  kind: "answer",
  site: "a",
  round: 0,
  answers: point.sha256,
  rows: "0".repeat(64),
  n: 30,
  events: 20,
  people: 28,
  left_out: 0,
  log_likelihood: -50,
  score: [1],
  information: [[4]],
  squares: null,
  deletions: null,
};

/** Somebody who knows how files are sealed changes them and seals them again. */
const sealedAgain = (content: object) => ({ ...content, sha256: sha256(canonicalText(content)) });

/** Whatever comes of it is an answer, or an error that names the file. */
function answeredOrRefused(text: string): void {
  try {
    const file = readRoundFile({ file: "theirs.json", text }, sha256);
    const named = { file: "point.json", content: point as PointFile };
    if (file.kind === "answer") proposePoint(named, [file], sha256);
  } catch (error) {
    expect(error).toBeInstanceOf(PoolingFileError);
    expect((error as Error).message).toMatch(/^(theirs|point)\.json/);
    return;
  }
}

it("any text is refused with the name of the file", () => {
  fc.assert(fc.property(fc.string(), answeredOrRefused), settings);
  fc.assert(fc.property(fc.json(), answeredOrRefused), settings);
});

const odd = fc.oneof(
  fc.jsonValue(),
  fc.double(),
  fc.constantFrom(null, "", -1, 1e308, [], [[]], [[1, 2]], "__proto__", { __proto__: 1 }),
);

it("an answer with any value in any place is taken or refused, never a fault of ours", () => {
  fc.assert(
    fc.property(fc.constantFrom(...Object.keys(answer)), odd, (key, value) =>
      answeredOrRefused(JSON.stringify(sealedAgain({ ...answer, [key]: value }))),
    ),
    { ...settings, numRuns: 1_500 },
  );
});

it("a point with any value in any place is taken or refused, never a fault of ours", () => {
  const { sha256: _, ...content } = point;
  fc.assert(
    fc.property(fc.constantFrom(...Object.keys(content)), odd, (key, value) =>
      answeredOrRefused(JSON.stringify(sealedAgain({ ...content, [key]: value }))),
    ),
    { ...settings, numRuns: 1_500 },
  );
});

it("the answer as it is gives the next point", () => {
  const file = readRoundFile({ file: "theirs.json", text: JSON.stringify(sealedAgain(answer)) }, sha256);
  expect(file.kind === "answer" && proposePoint({ file: "p", content: point }, [file], sha256)).toMatchObject(
    {
      kind: "point",
      round: 1,
      shared: [0.25],
    },
  );
});
