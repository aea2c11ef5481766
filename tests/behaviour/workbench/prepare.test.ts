import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { deskOn } from "../../../src/workbench/engine/desk.js";
import type { NamedBytes } from "../../../src/workbench/engine/tasks.js";
import { deskMachine } from "./desk-machine.js";

const tables = ["injuries", "treatments", "imaging", "visits", "sites"].map(
  (table) => `synthetic-${table}.csv`,
);
const files = ["study.yaml", ...tables].map(
  (name): NamedBytes => ({ name, bytes: readFileSync(`synthetic-data/one-clinic/${name}`) }),
);

/** A desk, and what it has said that it does since somebody last looked. */
async function heardDesk() {
  const said: string[] = [];
  const desk = deskOn(await deskMachine(), (step) => said.push(step));
  return { desk, heard: () => said.splice(0) };
}

describe("an answer that is prepared while somebody reads the question", () => {
  it("is there when it is asked for, the same as one that was not prepared, and computed once", async () => {
    const { desk, heard } = await heardDesk();
    await desk.bring(files);
    await desk.ask({});
    await desk.prepare();
    expect(heard()).toContain("estimating");
    const prepared = await desk.read();
    expect(heard()).not.toContain("estimating");
    const other = await heardDesk();
    await other.desk.bring(files);
    await other.desk.ask({});
    expect(await other.desk.read()).toEqual(prepared);
  });

  it("is not taken for the answer to another question", async () => {
    const { desk, heard } = await heardDesk();
    await desk.bring(files);
    await desk.ask({});
    await desk.prepare();
    await desk.ask({ milestone: "easy_climbing" });
    heard();
    const { paragraphs } = await desk.read();
    expect(heard()).toContain("estimating");
    expect(paragraphs.join(" ")).toContain("easy climbing");
  });

  it("does nothing before there are data, and nothing to a first question that answers to queries may still change", async () => {
    const { desk, heard } = await heardDesk();
    await desk.prepare();
    await desk.bring([
      {
        name: "synthetic-single-sheet.csv",
        bytes: readFileSync("synthetic-data/one-clinic/synthetic-single-sheet.csv"),
      },
    ]);
    await desk.check();
    heard();
    await desk.prepare();
    expect(heard()).not.toContain("estimating");
  });
});
