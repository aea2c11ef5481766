import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { isDeepStrictEqual } from "node:util";
import { afterEach, describe, expect, it, vi } from "vitest";
import { refuseFolder, writeFolder, writeNewFile } from "../../../../src/cli/writing/index.js";
import { asFound, everythingIn, newFolder, ourFiles, put } from "./folders.js";
import { closeLeftOpen, type Death, moments, state } from "./mortal-disk.js";

vi.mock("node:fs/promises", async (original) => {
  const { mortal } = await import("./mortal-disk.js");
  return mortal(await original());
});

/** A number that no process has: the largest that Linux gives is 4194304 (proc(5)). */
const nobody = 99_999_999;
const own = process.pid;
const beNumber = (value: number) => Object.defineProperty(process, "pid", { value, configurable: true });

afterEach(() => {
  beNumber(own);
  Object.assign(state, { death: null, calls: 0, isDead: false, withoutLinks: false, onCall: null });
});

/** Runs something that is killed; false where it came to its end before that. */
async function killed(run: () => Promise<void>, death: Death): Promise<boolean> {
  beNumber(nobody);
  const died = new Promise<true>((done) => {
    Object.assign(state, { death, calls: 0, isDead: false, onDeath: () => done(true) });
  });
  const wasKilled = await Promise.race([died, run().then(() => false)]);
  beNumber(own);
  Object.assign(state, { death: null, isDead: false });
  await closeLeftOpen();
  return wasKilled;
}

const options = { inputs: [], replace: "report" as const, tell: () => undefined };
const [first, second] = [ourFiles("first"), ourFiles("second")];
const mapping = { inputs: [], elsewhere: "", mayReplace: (text: string) => text.startsWith("ours") };

interface Scenario {
  readonly name: string;
  readonly make: (folder: string) => void;
  readonly run: (folder: string) => Promise<void>;
  readonly earlier: Record<string, string | null>;
  readonly later: Record<string, string | null>;
  readonly withoutLinks?: boolean;
}

const scenarios: readonly Scenario[] = [
  {
    name: "a new folder",
    make: () => undefined,
    run: (folder) => writeFolder(join(folder, "report"), second, options),
    earlier: {},
    later: asFound("report", second),
  },
  {
    name: "a new folder below folders that are not there",
    make: () => undefined,
    run: (folder) => writeFolder(join(folder, "a/b/report"), second, options),
    earlier: {},
    later: asFound("a/b/report", second),
  },
  {
    name: "an empty folder",
    make: (folder) => mkdirSync(join(folder, "report")),
    run: (folder) => writeFolder(join(folder, "report"), second, options),
    earlier: { report: null },
    later: asFound("report", second),
  },
  {
    name: "an earlier folder",
    make: (folder) => put(join(folder, "report"), first),
    run: (folder) => writeFolder(join(folder, "report"), second, options),
    earlier: asFound("report", first),
    later: asFound("report", second),
  },
  ...[false, true].map((withoutLinks) => ({
    name: `a new file${withoutLinks ? ", on a disk without second names for files" : ""}`,
    make: () => undefined,
    run: (folder: string) => writeNewFile(join(folder, "list.csv"), "ours, second", mapping),
    earlier: {},
    later: { "list.csv": "ours, second" },
    withoutLinks,
  })),
  {
    name: "an earlier file",
    make: (folder) => writeFileSync(join(folder, "mapping.yaml"), "ours, first"),
    run: (folder) => writeNewFile(join(folder, "mapping.yaml"), "ours, second", mapping),
    earlier: { "mapping.yaml": "ours, first" },
    later: { "mapping.yaml": "ours, second" },
  },
];

/** Any run that writes into the same folder, even under another name, settles what was left. */
const nextRun = (folder: string) => refuseFolder(join(folder, "another"), options);

describe("a run killed at any of its calls leaves what was there, or what it wrote, after the next run", () => {
  it.each(scenarios)("$name", async ({ make, run, earlier, later, withoutLinks = false }) => {
    state.withoutLinks = withoutLinks;
    let [call, outcomes] = [0, new Set<string>()];
    for (let wasKilled = true; wasKilled; ) {
      call += 1;
      for (const when of moments) {
        const folder = newFolder();
        make(folder);
        wasKilled = await killed(() => run(folder), { call, when });
        await nextRun(folder);
        const found = everythingIn(folder);
        const isLater = isDeepStrictEqual(found, later);
        outcomes = outcomes.add(isLater ? "later" : "earlier");
        if (!isLater) expect(found, `call ${call}, ${when}`).toEqual(earlier);
        if (!wasKilled) expect(isLater).toBe(true);
        // and whatever was left, the same run can be done again
        await run(folder);
        expect(everythingIn(folder), `again after call ${call}, ${when}`).toEqual(later);
        if (!wasKilled) break;
      }
    }
    expect(call).toBeGreaterThan(8);
    expect([...outcomes].sort()).toEqual(["earlier", "later"]);
  });

  it("killed again at any call of the next run, while it settles what was left", async () => {
    const { make, run, earlier, later } = scenarios[3]!;
    for (let [call, wasKilled] = [2, true]; wasKilled; call += 2) {
      for (let [second, again] = [1, true]; again; second++) {
        const folder = newFolder();
        make(folder);
        wasKilled = await killed(() => run(folder), { call, when: "after" });
        again = await killed(() => nextRun(folder), { call: second, when: "after" });
        await nextRun(folder);
        const found = everythingIn(folder);
        expect([earlier, later], `calls ${call} and ${second}`).toContainEqual(found);
      }
    }
  });
});
