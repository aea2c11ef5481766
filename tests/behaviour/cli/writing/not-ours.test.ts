import {
  appendFileSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { CommandError } from "../../../../src/cli/exit-codes.js";
import { type FolderOptions, writeFolder, writeNewFile } from "../../../../src/cli/writing/index.js";
import { asFound, everythingIn, manifestOf, newFolder, ourFiles, put } from "./folders.js";
import { state } from "./mortal-disk.js";

vi.mock("node:fs/promises", async (original) => {
  const { mortal } = await import("./mortal-disk.js");
  return mortal(await original());
});

afterEach(() => {
  Object.assign(state, { onCall: null, withoutLinks: false });
});

const [first, second] = [ourFiles("first"), ourFiles("second")];
const said: string[] = [];
const replacing: FolderOptions = { inputs: [], replace: "report", tell: (text) => said.push(text) };

/** The refusal of something that is expected to be refused, and that it left everything as it was. */
async function refused(folder: string, act: () => Promise<void>): Promise<string> {
  const before = everythingIn(folder);
  const error = await act().then(
    () => null,
    (thrown: unknown) => thrown,
  );
  expect(error).toBeInstanceOf(CommandError);
  const { exitCode, message } = error as CommandError;
  expect(exitCode).toBe(4);
  expect(everythingIn(folder)).toEqual(before);
  return message;
}

describe("an earlier folder is replaced only where every file in it is ours", () => {
  it("then it is, whole", async () => {
    const folder = newFolder();
    put(join(folder, "report"), first);
    rmSync(join(folder, "report/report.html"));
    mkdirSync(join(folder, "report/tables/"), { recursive: true });
    await writeFolder(join(folder, "report"), second, replacing);
    expect(everythingIn(folder)).toEqual(asFound("report", second));
  });

  it.each<{ name: string; spoil: (report: string) => void; says: string }>([
    {
      name: "notes of somebody",
      spoil: (report) => writeFileSync(join(report, "notes.txt"), "mine"),
      says: "notes.txt (not listed",
    },
    {
      name: "a file of ours that was changed",
      spoil: (report) => appendFileSync(join(report, "tables/first.csv"), "x"),
      says: "tables/first.csv (changed",
    },
    {
      name: "a file of ours that was changed to one as long",
      spoil: (report) => writeFileSync(join(report, "tables/first.csv"), "FIRST,1\n"),
      says: "tables/first.csv (changed",
    },
    {
      name: "an empty folder of somebody",
      spoil: (report) => mkdirSync(join(report, "figures")),
      says: "figures (a folder",
    },
    {
      name: "a link to a file",
      spoil: (report) => symlinkSync("/etc/hosts", join(report, "hosts")),
      says: "hosts (a link)",
    },
    {
      name: "a link in the place of a file of ours",
      spoil: (report) => {
        renameSync(join(report, "report.html"), join(report, "../page"));
        symlinkSync("../page", join(report, "report.html"));
      },
      says: "report.html (a link)",
    },
    {
      name: "a file of ours that has a second name elsewhere",
      spoil: (report) => linkSync(join(report, "report.html"), join(report, "../page")),
      says: "report.html (changed since it was written, or linked)",
    },
    {
      name: "a folder in the place of the manifest",
      spoil: (report) => {
        rmSync(join(report, "manifest.json"));
        mkdirSync(join(report, "manifest.json"));
      },
      says: "no manifest.json of this toolkit",
    },
    ...["{}", "[]", "", '{"name": "an extension", "manifest_version": 3}', '{"outputs": []}'].map((text) => ({
      name: `the manifest of another program: ${text}`,
      spoil: (report: string) => writeFileSync(join(report, "manifest.json"), text),
      says: "no manifest.json of this toolkit",
    })),
    {
      name: "a manifest that lists what lies elsewhere",
      spoil: (report) => {
        const manifest = readFileSync(join(report, "manifest.json"), "utf8");
        writeFileSync(join(report, "manifest.json"), manifest.replace("tables/first.csv", "../first.csv"));
      },
      says: "no manifest.json of this toolkit",
    },
    {
      name: "more than can be named",
      spoil: (report) => {
        for (let at = 0; at < 9; at++) writeFileSync(join(report, `note-${at}`), "");
      },
      says: "and 4 more",
    },
  ])("$name: named, and nothing is done", async ({ spoil, says }) => {
    const folder = newFolder();
    put(join(folder, "report"), first);
    spoil(join(folder, "report"));
    const message = await refused(folder, () => writeFolder(join(folder, "report"), second, replacing));
    expect(message).toContain(says);
    expect(message).toContain("\n  Move them to another place, or choose another folder with --into");
  });

  it.each(["shared copy", "deposit"] as const)("a %s gives way to one, and not to a report", async (kind) => {
    const folder = newFolder();
    const files = [{ path: "a.csv", content: "a\n" }];
    put(join(folder, "copy"), [...files, manifestOf(kind, files)]);
    const message = await refused(folder, () => writeFolder(join(folder, "copy"), second, replacing));
    expect(message).toContain(`holds a ${kind}, not a report, and is not replaced`);
    await writeFolder(join(folder, "copy"), second, { ...replacing, replace: kind });
    expect(everythingIn(folder)).toEqual(asFound("copy", second));
  });

  it("without --replace not even our own", async () => {
    const folder = newFolder();
    put(join(folder, "report"), first);
    const options = { ...replacing, replace: false as const };
    const message = await refused(folder, () => writeFolder(join(folder, "report"), second, options));
    expect(message).toContain("or add --replace");
    const notOnOffer = { ...replacing, replace: null };
    const other = await refused(folder, () => writeFolder(join(folder, "report"), second, notOnOffer));
    expect(other).toContain("is not empty");
    expect(other).not.toContain("--replace");
  });
});

describe("what somebody puts in meanwhile is kept", () => {
  it("in the earlier folder, as it is moved away", async () => {
    const folder = newFolder();
    put(join(folder, "report"), first);
    state.onCall = (name, path) => {
      if (name === "rename" && path.endsWith("/report")) writeFileSync(join(path, "notes.txt"), "mine");
    };
    await expect(writeFolder(join(folder, "report"), second, replacing)).rejects.toThrow("notes.txt");
    expect(everythingIn(folder)).toEqual({ ...asFound("report", first), "report/notes.txt": "mine" });
  });

  it("in the earlier folder, as it is about to be deleted or being deleted", async () => {
    for (const calls of ["rename earlier", "unlink report.html", "rmdir gone"]) {
      const [called, part] = calls.split(" ") as [string, string];
      const folder = newFolder();
      put(join(folder, "report"), first);
      state.onCall = (name, path) => {
        if (name !== called || !path.endsWith(`/${part}`) || !path.includes("writing-")) return;
        const moved = path.replace(/(\/(earlier|gone)).*/, "$1");
        if (!path.includes("/new")) writeFileSync(join(moved, "notes.txt"), "mine");
      };
      said.length = 0;
      await writeFolder(join(folder, "report"), second, replacing);
      const found = everythingIn(folder);
      expect(found, calls).toMatchObject({ ...asFound("report", second), "report-kept/notes.txt": "mine" });
      expect(said.join(), calls).toContain("report-kept");
      expect(readdirSync(folder).sort(), calls).toEqual(["report", "report-kept"]);
    }
  });

  it("at the target, while nothing is there", async () => {
    const folder = newFolder();
    put(join(folder, "report"), first);
    state.onCall = (name, path) => {
      if (name !== "rename" || !path.endsWith("/new")) return;
      mkdirSync(join(folder, "report"));
      writeFileSync(join(folder, "report/notes.txt"), "mine");
    };
    await expect(writeFolder(join(folder, "report"), second, replacing)).rejects.toThrow("cannot be written");
    expect(everythingIn(folder)).toEqual({ ...asFound("report-kept", first), "report/notes.txt": "mine" });
  });

  it("at the place of a new file, also on a disk without second names", async () => {
    for (const withoutLinks of [false, true]) {
      const folder = newFolder();
      state.withoutLinks = withoutLinks;
      state.onCall = (name) => {
        if (name === "link") writeFileSync(join(folder, "list.csv"), "mine");
      };
      const writing = writeNewFile(join(folder, "list.csv"), "ours", { inputs: [], elsewhere: "Else" });
      await expect(writing).rejects.toThrow("already exists");
      expect(everythingIn(folder)).toEqual({ "list.csv": "mine" });
    }
  });

  it("beside it, under a name like those of our own work", async () => {
    const folder = newFolder();
    const names = [`begin-00000000-99999999-0-00000000`, "0123456789abcdef"];
    for (const name of names) {
      mkdirSync(join(folder, `.pulley-outcomes-writing-${name}`));
      writeFileSync(join(folder, `.pulley-outcomes-writing-${name}`, "marker"), "mine");
    }
    const before = everythingIn(folder);
    await writeFolder(join(folder, "report"), second, replacing);
    expect(everythingIn(folder)).toEqual({ ...before, ...asFound("report", second) });
  });
});

describe("a target that is, holds or lies above a file that is read is refused", () => {
  const study = () => {
    const folder = newFolder();
    put(join(folder, "audit"), [
      ...first,
      { path: "data/sheet.csv", content: "a" },
      { path: "study.yaml", content: "b" },
    ]);
    return folder;
  };
  it.each([
    ["audit", "audit/data/sheet.csv", "holds"],
    ["audit/data", "audit/data/sheet.csv", "holds"],
    ["audit/data/sheet.csv", "audit/data/sheet.csv", "reads and never writes over"],
    ["audit/data", "linked/sheet.csv", "holds"],
    ["AUDIT/data", "audit/data/sheet.csv", "holds"],
  ])("%s, reading %s", async (target, input, says) => {
    const folder = study();
    symlinkSync(join(folder, "audit/data"), join(folder, "linked"));
    // a disk that takes small and capital letters for the same shows one folder under both names: here a link does
    symlinkSync(join(folder, "audit"), join(folder, "AUDIT"));
    const options = { ...replacing, inputs: [join(folder, input)] };
    const message = await refused(folder, () => writeFolder(join(folder, target), second, options));
    expect(message).toContain(says);
  });

  it("a file that is read is not written over, by whatever name", async () => {
    const folder = study();
    linkSync(join(folder, "audit/study.yaml"), join(folder, "second-name.yaml"));
    const options = { inputs: [join(folder, "audit/study.yaml")], elsewhere: "Else", mayReplace: () => true };
    for (const path of ["audit/study.yaml", "second-name.yaml"]) {
      const message = await refused(folder, () => writeNewFile(join(folder, path), "new", options));
      expect(message).toContain("never writes over");
    }
  });
});

describe("targets to which nothing can be written are refused at once, with a sentence", () => {
  const linked = (to: string) => (folder: string) => symlinkSync(to, join(folder, "x"));
  it.each<{ target: string; says: string; make?: (folder: string) => void }>([
    { target: "x", make: linked("elsewhere"), says: "is a link" },
    { target: "x", make: linked("/tmp"), says: "is a link" },
    { target: "x/", make: linked("/tmp"), says: "is a link" },
    { target: "x/y", make: linked("elsewhere"), says: "cannot be reached" },
    { target: "x/y", make: linked("x"), says: "a link that leads back to itself" },
    { target: "x/y", make: (folder) => writeFileSync(join(folder, "x"), ""), says: "is below something" },
    { target: "x", make: (folder) => writeFileSync(join(folder, "x"), ""), says: "x" },
    { target: ".", says: "does not name a file or folder" },
    { target: "x/..", says: "does not name a file or folder" },
    { target: "a\0b", says: "not allowed in a file name" },
    { target: "ü".repeat(140), says: "too long" },
    { target: "a/".repeat(3000), says: "too long" },
  ])("$target", async ({ target, says, make }) => {
    const folder = newFolder();
    make?.(folder);
    const full = `${folder}/${target}`;
    expect(await refused(folder, () => writeFolder(full, second, replacing))).toContain(says);
    const file = { inputs: [], elsewhere: "Else", mayReplace: () => false };
    expect(await refused(folder, () => writeNewFile(full, "", file))).toContain(says);
  });

  it.skipIf(process.platform === "win32").each([
    ["/dev/null", "a device"],
    ["/dev/null/x", "is below something"],
    ["/dev/report", "file system of the operating system"],
    ["/", "does not name a file or folder"],
  ])("%s", async (target, says) => {
    const folder = newFolder();
    expect(await refused(folder, () => writeFolder(target, second, replacing))).toContain(says);
  });

  it.skipIf(process.platform !== "linux").each(["/proc/report", "/proc/self/report", "/sys/kernel/report"])(
    "%s",
    async (target) => {
      const folder = newFolder();
      const message = await refused(folder, () => writeFolder(target, second, replacing));
      expect(message).toContain("file system of the operating system");
    },
  );
});
