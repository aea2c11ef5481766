import { spawn, spawnSync } from "node:child_process";
import {
  appendFileSync,
  cpSync,
  existsSync,
  linkSync,
  mkdirSync,
  openSync,
  readFileSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { beforeAll, describe, expect, it } from "vitest";
import { command, folderWith, main, soundSheet, soundStudy } from "../run-command.js";
import { everythingIn } from "./folders.js";

const hook = new URL("fault-hook.mjs", import.meta.url).href;

interface Fault {
  readonly call: string;
  /** How the path ends at which it happens. */
  readonly path: string;
  readonly when: "before" | "after";
}

/** A run that is killed. */
function killedCommand(folder: string, fault: Fault, ...words: readonly string[]) {
  const { signal } = spawnSync(process.execPath, ["--import", hook, main, ...words], {
    cwd: folder,
    env: { ...process.env, FAULT: JSON.stringify(fault) },
  });
  return signal;
}

/** A run that is held until `go`. */
function heldCommand(folder: string, fault: Fault, ...words: readonly string[]) {
  const hold = join(folderWith({}), "hold");
  const child = spawn(process.execPath, ["--import", hook, main, ...words], {
    cwd: folder,
    env: { ...process.env, FAULT: JSON.stringify({ ...fault, hold }) },
    stdio: ["ignore", "ignore", "pipe"],
  });
  let stderr = "";
  child.stderr.setEncoding("utf8").on("data", (text) => {
    stderr += text;
  });
  const ended = new Promise<{ code: number | null; stderr: string }>((done) => {
    child.on("close", (code) => done({ code, stderr }));
  });
  return {
    reached: async () => {
      while (!existsSync(`${hold}.reached`)) await pause(20);
    },
    go: () => writeFileSync(`${hold}.go`, ""),
    ended,
  };
}

let made = "";
beforeAll(async () => {
  made = folderWith({ "study.yaml": soundStudy, "sheet.csv": soundSheet });
  for (const words of [
    ["report", "study.yaml"],
    ["share", "study.yaml", "--into", "copy"],
    ["deposit", "study.yaml", "--into", "archive"],
    ["fit", "sheet.csv"],
  ]) {
    expect(await command(made, ...words)).toMatchObject({ code: 0, stderr: "" });
  }
}, 120_000);

/** A study with everything that the commands have made of it. */
function study(): string {
  const folder = folderWith({});
  cpSync(made, folder, { recursive: true });
  return folder;
}

describe("what a command did not write is named and left as it is, with exit code 4", () => {
  const report = ["report", "study.yaml", "--replace"];
  const share = ["share", "study.yaml", "--replace", "--into", "copy"];
  const deposit = ["deposit", "study.yaml", "--replace", "--into", "archive"];
  const fit = ["fit", "sheet.csv", "--replace"];
  const notesIn = (place: string) => (folder: string) =>
    writeFileSync(join(folder, place, "notes.txt"), "mine");
  it.each<{ words: string[]; make?: (folder: string) => void; says: string; name: string }>([
    { name: "notes", words: report, make: notesIn("report"), says: "notes.txt" },
    { name: "notes", words: share, make: notesIn("copy"), says: "notes.txt" },
    { name: "notes", words: deposit, make: notesIn("archive"), says: "notes.txt" },
    {
      name: "the folder of another program",
      words: report,
      make: (folder) => writeFileSync(join(folder, "report/manifest.json"), '{"name": "another program"}'),
      says: "no manifest.json of this toolkit",
    },
    {
      name: "the folder of the study",
      words: [...report, "--into", "../STUDY"],
      make: (folder) => cpSync(join(folder, "report/manifest.json"), join(folder, "manifest.json")),
      says: "which this command reads",
    },
    {
      name: "the folder above the study",
      words: ["report", "inner/study.yaml", "--replace", "--into", "../STUDY"],
      make: (folder) => {
        mkdirSync(join(folder, "inner"));
        for (const name of ["study.yaml", "sheet.csv"])
          cpSync(join(folder, name), join(folder, "inner", name));
        cpSync(join(folder, "report/manifest.json"), join(folder, "manifest.json"));
      },
      says: "which this command reads",
    },
    {
      name: "a folder that holds a table, but not the study file",
      words: [...report, "--into", "data"],
      make: (folder) => {
        renameSync(join(folder, "report"), join(folder, "data"));
        renameSync(join(folder, "sheet.csv"), join(folder, "data/sheet.csv"));
        writeFileSync(join(folder, "study.yaml"), soundStudy.replace("sheet.csv", "data/sheet.csv"));
      },
      says: "sheet.csv",
    },
    {
      name: "a link to a folder",
      words: [...report, "--into", "linked"],
      make: (folder) => symlinkSync("report", join(folder, "linked")),
      says: "is a link",
    },
    { name: "the table", words: [...fit, "--into", "sheet.csv"], says: "never writes over" },
    { name: "the study file", words: [...fit, "--into", "study.yaml"], says: "not written by this toolkit" },
    {
      name: "a link to the study file",
      words: [...fit, "--into", "linked.yaml"],
      make: (folder) => symlinkSync("study.yaml", join(folder, "linked.yaml")),
      says: "is a link",
    },
    {
      name: "a mapping with a second name",
      words: fit,
      make: (folder) => linkSync(join(folder, "mapping.yaml"), join(folder, "second.yaml")),
      says: "hard links",
    },
    {
      name: "the earlier mapping that is read",
      words: [...fit, "--mapping", "mapping.yaml"],
      says: "never writes over",
    },
    {
      name: "a table, in the place of the list of queries",
      words: ["check", "study.yaml", "--queries", "sheet.csv"],
      says: "exists already",
    },
  ])("$name: $words", async ({ words, make, says }) => {
    const folder = study();
    make?.(folder);
    const before = everythingIn(folder);
    const named = words.map((word) => word.replace("STUDY", folder.split("/").at(-1)!));
    const { code, stderr } = await command(folder, ...named);
    expect([code, stderr]).toEqual([4, expect.stringContaining(says)]);
    expect(everythingIn(folder)).toEqual(before);
  });

  it.each([
    ["report", "study.yaml", "--replace", "--into", ""],
    ["share", "study.yaml", "--replace", "--into", ""],
    ["share", "study.yaml", "--into", "  "],
    ["fit", "sheet.csv", "--replace", "--into", ""],
  ])("an empty name is a matter of the command line: %s", async (...words) => {
    const folder = study();
    cpSync(join(folder, "report/manifest.json"), join(folder, "manifest.json"));
    const before = everythingIn(folder);
    expect(await command(folder, ...words)).toMatchObject({ code: 2 });
    expect(everythingIn(folder)).toEqual(before);
  });
});

describe("a command that is killed leaves what was there, and the next one clears what is left", () => {
  const share = ["share", "study.yaml", "--replace", "--into", "copy"];
  it.each<{ name: string; words: string[]; fault: Fault }>([
    {
      name: "report, with the earlier one moved away",
      words: ["report", "study.yaml", "--replace"],
      fault: { call: "rename", path: "/report", when: "after" },
    },
    {
      name: "share, with the copy half written",
      words: share,
      fault: { call: "open", path: "injuries.csv", when: "after" },
    },
    {
      name: "share, with the earlier one half deleted",
      words: share,
      fault: { call: "unlink", path: "injuries.csv", when: "after" },
    },
    {
      name: "fit, with the mapping written and not in place",
      words: ["fit", "sheet.csv", "--replace"],
      fault: { call: "rename", path: "/mapping.yaml", when: "before" },
    },
  ])("$name", async ({ words, fault }) => {
    const folder = study();
    // the table has changed, so that the earlier outputs and the new ones differ
    appendFileSync(
      join(folder, "sheet.csv"),
      "P05,2024-05-01,left,ring,A3,2,ring,2024-05-02,2024-08-01,2024-12-01\n",
    );
    const before = everythingIn(folder);
    expect(killedCommand(folder, fault, ...words)).toBe("SIGKILL");
    expect(everythingIn(folder)).not.toEqual(before);
    expect(await command(folder, "begin", "another")).toMatchObject({ code: 0 });
    const after = Object.entries(everythingIn(folder)).filter(([path]) => !path.startsWith("another/"));
    if (words[0] === "share" && fault.call === "unlink") {
      expect(after.map(([path]) => path)).toEqual(Object.keys(before));
      expect(readFileSync(join(folder, "copy/injuries.csv"), "utf8").split("\n").length).toBe(7);
    } else expect(Object.fromEntries(after)).toEqual(before);
  });
});

describe("two runs at once into one folder", () => {
  const share = (into: string) => ["share", "study.yaml", "--replace", "--into", into];
  it.each<Fault>([
    { call: "mkdir", path: "/new", when: "before" },
    { call: "rename", path: "/copy", when: "before" },
    { call: "rename", path: "/copy", when: "after" },
    { call: "rename", path: "/earlier", when: "after" },
  ])("one has begun ($call $path): the other says so and leaves it to finish", async (fault) => {
    const folder = study();
    const before = everythingIn(folder);
    const first = heldCommand(folder, fault, ...share("copy"));
    await first.reached();
    const second = await command(folder, ...share("copy"));
    expect([second.code, second.stderr]).toEqual([4, expect.stringContaining("Another run is writing")]);
    expect(await command(folder, ...share("elsewhere"))).toMatchObject({ code: 0 });
    first.go();
    expect(await first.ended).toEqual({ code: 0, stderr: "" });
    const after = Object.entries(everythingIn(folder)).filter(([path]) => !path.startsWith("elsewhere/"));
    expect(Object.fromEntries(after)).toEqual(before);
  });

  it("one was about to begin: the other is whole, and the first finds it in its way", async () => {
    const folder = study();
    const held = { call: "mkdir", path: "", when: "before" } as const;
    const first = heldCommand(folder, held, "share", "study.yaml", "--into", "new");
    await first.reached();
    expect(await command(folder, "share", "study.yaml", "--into", "new")).toMatchObject({ code: 0 });
    const before = everythingIn(folder);
    first.go();
    expect(await first.ended).toEqual({ code: 4, stderr: expect.stringContaining("is not empty") });
    expect(everythingIn(folder)).toEqual(before);
  });
});

describe.skipIf(!existsSync("/dev/full"))("where the output cannot be written, the exit code is 4", () => {
  const into = (target: "full" | "closed", folder: string, ...words: readonly string[]) => {
    const line = target === "full" ? '"$0" "$@" > /dev/full' : 'set -o pipefail; "$0" "$@" | true';
    const { status, stderr } = spawnSync("bash", ["-c", line, process.execPath, main, ...words], {
      cwd: folder,
      encoding: "utf8",
    });
    return { code: status, stderr };
  };
  it.each(["full", "closed"] as const)("%s", (target) => {
    const folder = study();
    for (const words of [
      ["--help"],
      ["check", "study.yaml"],
      ["check", "sheet.csv", "--table", "single_sheet"],
      ["share", "study.yaml", "--into", `new-${target}`],
      ["begin", `begun-${target}`],
    ]) {
      const { code, stderr } = into(target, folder, ...words);
      expect([words, code, stderr]).toEqual([words, 4, expect.stringContaining("could not be written")]);
    }
    // the copy is there, whole, and so is its key
    expect(existsSync(join(folder, `new-${target}`, "manifest.json"))).toBe(true);
    expect(existsSync(join(folder, "sharing.key"))).toBe(true);
  });

  it("an error that cannot be said keeps its exit code", () => {
    const folder = study();
    const stderr = openSync("/dev/full", "w");
    const { status } = spawnSync(process.execPath, [main, "check", "nowhere.yaml"], {
      cwd: folder,
      stdio: ["ignore", "ignore", stderr],
    });
    expect(status).toBe(3);
  });
});

describe.skipIf(process.platform !== "linux")("on a disk that is full", () => {
  it("a new list, key or folder is taken away again", () => {
    // no file of this run may be larger than 0 blocks: every write fails as on a full disk
    const folder = study();
    const before = everythingIn(folder);
    for (const words of [
      "check study.yaml --queries list.csv",
      "share study.yaml --into new --key new.key",
      "begin new",
    ]) {
      const line = `trap '' XFSZ; ulimit -f 0; exec "$0" "${main}" ${words}`;
      const { status, stderr } = spawnSync("bash", ["-c", line, process.execPath], {
        cwd: folder,
        encoding: "utf8",
      });
      expect([words, status, stderr]).toEqual([words, 4, expect.stringContaining("cannot be written")]);
      expect(everythingIn(folder), words).toEqual(before);
    }
  });
});
