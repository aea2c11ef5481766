import { utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { hasEnded, thisProcess } from "../../../../src/cli/writing/owner.js";
import { newFolder } from "./folders.js";

const [computer = "", number = "", beginning = ""] = thisProcess().split("-");
const patience = { patience: 1_000 };

function markerFile(): string {
  const marker = join(newFolder(), "marker");
  writeFileSync(marker, "");
  return marker;
}

it("a process that is there has not ended; one that is not there has", async () => {
  expect(await hasEnded(thisProcess(), markerFile(), patience)).toBe(false);
  // Linux gives numbers up to 4194304 (proc(5))
  expect(await hasEnded(`${computer}-99999999-${beginning}`, markerFile(), patience)).toBe(true);
});

it.skipIf(beginning === "0")("another process that has got the same number is not the run", async () => {
  expect(await hasEnded(`${computer}-${number}-0badcafe`, markerFile(), patience)).toBe(true);
});

it.each([
  ["of another computer", `00000000-${number}-${beginning}`],
  ["whose beginning is not known", `${computer}-${number}-0`],
])("a run %s has ended when its marker shows no sign of life", async (_, owner) => {
  const marker = markerFile();
  expect(await hasEnded(owner, marker, patience)).toBe(true);
  expect(await hasEnded(owner, join(newFolder(), "none"), patience)).toBe(true);
  const watching = hasEnded(owner, marker, { patience: 60_000 });
  let beat = 1;
  const timer = setInterval(() => utimesSync(marker, beat, beat++), 20);
  expect(await watching.finally(() => clearInterval(timer))).toBe(false);
});
