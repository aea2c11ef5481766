import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { CommandError } from "../../src/cli/exit-codes.js";
import { fingerprintOf } from "../../src/cli/machine.js";
import { type OutputFile, writeFolder, writeNewFile } from "../../src/cli/writing/index.js";
import { markerText } from "../../src/cli/writing/marker.js";
import { thisProcess } from "../../src/cli/writing/owner.js";
import { sharedNameOf } from "../../src/cli/writing/work-folder.js";
import type { Generator } from "../../src/statistics/shared/random.js";
import type { Verdict } from "./judge.js";

/** A folder in which something is to be written, and what somebody would miss. */
interface Scene {
  readonly folder: string;
  /** Texts of files, each there once, that have to be somewhere afterwards. */
  readonly precious: string[];
  readonly draw: Generator;
}

const oneOf = <T>(draw: Generator, from: readonly T[]): T => from[draw.integer(from.length)] as T;
const target = "report";

/**
 * Writes into a random folder: with notes, links, the manifests of other programs, work folders of runs that ended
 * half-way, inputs in or below the target. Holds that every text which was there, and which no manifest of ours listed,
 * is there afterwards; and that the target is what was written, or as it was.
 *
 * @throws Error that says what did not hold
 */
export async function judgeTarget(draw: Generator): Promise<Verdict> {
  const scene: Scene = { folder: mkdtempSync(join(tmpdir(), "pulley-outcomes-fuzz-")), precious: [], draw };
  try {
    furnish(scene);
    const before = wholeReport(scene);
    const verdict = await write(scene, before);
    judgeTexts(scene);
    return verdict;
  } finally {
    rmSync(scene.folder, { recursive: true, force: true });
  }
}

/** Writes a file that nobody may lose. */
function putPrecious({ folder, precious, draw }: Scene, path: string): void {
  const text = `precious ${precious.length} ${draw.integer(1_000_000)}`;
  try {
    put(folder, { path, content: text });
    precious.push(text);
  } catch {
    // something else has that name already
  }
}

function put(folder: string, { path, content }: OutputFile): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content, { flag: "wx" });
}

/** A folder of ours; its files may go when it is replaced. */
function ourFiles(word: string): readonly OutputFile[] {
  const files = ["report.html", "tables/a.csv"].map((path) => ({ path, content: `${word} ${path}` }));
  const outputs = files.map(({ path, content }) => fingerprintOf(path, content));
  const made = { format: "pulley-outcomes manifest 1", toolkit_version: "0.1.0", synthetic: true, outputs };
  return [...files, { path: "manifest.json", content: JSON.stringify(made) }];
}

const names = [
  "notes.txt",
  "tables/mine.csv",
  "tables/a.csv",
  "deep/er/x",
  "manifest.json",
  "data/sheet.csv",
];

function furnish(scene: Scene): void {
  const { folder, draw } = scene;
  const state = oneOf(draw, ["missing", "empty", "ours", "ours", "ours", "theirs", "file", "link"]);
  if (draw.integer(2) === 0) leaveHalfDone(scene);
  if (state === "empty") mkdirSync(join(folder, target));
  if (state === "ours") for (const file of ourFiles("earlier")) put(join(folder, target), file);
  if (state === "theirs") for (let at = draw.integer(4); at >= 0; at--) putIn(scene, target);
  if (state === "ours" && draw.integer(2) === 0) putIn(scene, target);
  if (state === "file") putPrecious(scene, target);
  if (state === "link") {
    putPrecious(scene, "linked/x");
    symlinkSync("linked", join(folder, target));
  }
  for (let at = draw.integer(3); at > 0; at--)
    putPrecious(scene, oneOf(draw, ["notes.txt", "report-kept", ".x"]));
}

const putIn = (scene: Scene, place: string): void =>
  putPrecious(scene, `${place}/${oneOf(scene.draw, names)}`);

/** A work folder as a run that was killed leaves it, or as nobody of ours would. */
function leaveHalfDone(scene: Scene): void {
  const { folder, draw } = scene;
  const owner = `${thisProcess().split("-")[0]}-99999999-0`;
  const name = oneOf(draw, [sharedNameOf(target), `.pulley-outcomes-writing-begin-${owner}-0a1b2c3d`]);
  const work = join(folder, name);
  mkdirSync(work);
  const kind = oneOf(draw, ["folder", "file"] as const);
  const marker = markerText({ kind, name: target, owner, files: ["a.csv", "tables/b.csv"] });
  const said = oneOf(draw, [marker, marker, marker, marker.slice(0, draw.integer(marker.length)), "mine"]);
  if (draw.integer(10) > 0) writeFileSync(join(work, "marker"), said);
  // in a work folder that says it is ours, only these are listed
  if (draw.integer(2) === 0 && said === marker) put(work, { path: "new/a.csv", content: "half" });
  if (draw.integer(2) === 0) putIn(scene, `${name}/${oneOf(draw, ["new", "earlier", "gone", "else"])}`);
  if (draw.integer(2) === 0) symlinkSync("/etc", join(work, oneOf(draw, ["link", "new-link"])));
  const moved = oneOf(draw, ["earlier", "gone", "none"]);
  if (moved === "none" || said !== marker) return;
  for (const file of ourFiles("moved")) {
    try {
      put(work, { ...file, path: `${moved}/${file.path}` });
    } catch {
      // something of somebody has that name
    }
  }
}

/** Texts of the target where it is a folder of ours and nothing else; null otherwise. */
function wholeReport({ folder }: Scene): string | null {
  const found = textsBelow(join(folder, target));
  return found.size === 0 ? null : [...found].sort().join("\n");
}

async function write(scene: Scene, before: string | null): Promise<Verdict> {
  const { folder, draw } = scene;
  const inputs = [oneOf(draw, ["notes.txt", "report/notes.txt", "report/data/sheet.csv", "report", "none"])];
  const options = { inputs: inputs.map((path) => join(folder, path)), tell: () => undefined };
  const asFile = draw.integer(4) === 0;
  const files = ourFiles("new");
  try {
    if (asFile) {
      const mayReplace = oneOf(draw, [null, (text: string) => text.startsWith("moved")]);
      await writeNewFile(join(folder, target), "new", { ...options, mayReplace, elsewhere: "Else" });
    } else
      await writeFolder(join(folder, target), files, {
        ...options,
        replace: draw.integer(3) > 0 && "report",
      });
  } catch (error) {
    if (!(error instanceof CommandError) || error.message.trim() === "") throw error;
    if (before !== null && wholeReport(scene) !== before)
      throw new Error("refused, and the target has changed");
    return "refused";
  }
  const wanted = asFile ? ["new"] : files.map(({ content }) => String(content));
  if (wholeReport(scene) !== [...wanted].sort().join("\n")) throw new Error("written, and not whole");
  return "read";
}

function judgeTexts({ folder, precious }: Scene): void {
  const found = textsBelow(folder);
  const lost = precious.filter((text) => !found.has(text));
  if (lost.length > 0) throw new Error(`lost: ${lost.join(", ")}`);
}

/** The texts of a file, or of every file below a folder; links are not followed. */
function textsBelow(path: string): ReadonlySet<string> {
  const texts = new Set<string>();
  const visit = (at: string): void => {
    try {
      for (const entry of readdirSync(at, { withFileTypes: true })) {
        if (entry.isDirectory()) visit(join(at, entry.name));
        else if (entry.isFile()) texts.add(readFileSync(join(at, entry.name), "utf8"));
      }
    } catch {
      // no folder
    }
  };
  visit(path);
  try {
    texts.add(readFileSync(path, "utf8"));
  } catch {
    // no file
  }
  return texts;
}
