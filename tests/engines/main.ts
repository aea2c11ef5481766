// The same bytes under every supported engine: reports, shared copies, deposits, invented cohorts, and every function of statistics/.
// npm run engines   Installs the engines into a temporary folder, which is removed; about a minute an engine.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { filesBelow, writeFolders } from "./folders.js";
import { install, versions } from "./install.js";

/** What an engine made: fingerprints of figures by name, files by path. */
interface Made {
  readonly figures: ReadonlyMap<string, string>;
  readonly files: ReadonlyMap<string, string>;
}

const shownAtMost = 12;
const figuresScript = fileURLToPath(new URL("figures.js", import.meta.url));

const say = (text: string): void => void process.stdout.write(`${text}\n`);

function madeBy(engine: string, { folder, key }: { readonly folder: string; readonly key: string }): Made {
  writeFolders(engine, { into: folder, key });
  const { status, stdout, stderr } = spawnSync(engine, [figuresScript], {
    encoding: "utf8",
    maxBuffer: 1e9,
  });
  if (status !== 0) throw new Error(`the figures under ${engine} exit with ${status}:\n${stderr}`);
  const lines = stdout.trimEnd().split("\n");
  return {
    figures: new Map(lines.map((line) => line.split("\t") as [string, string])),
    files: filesBelow(folder),
  };
}

const differing = (one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): readonly string[] =>
  [...new Set([...one.keys(), ...other.keys()])].filter((name) => one.get(name) !== other.get(name));

/** Says what differs, functions of the engine first: they would be the cause of the rest. */
function compare(version: string, { made, here }: { readonly made: Made; readonly here: Made }): boolean {
  const found = [...differing(here.figures, made.figures), ...differing(here.files, made.files)];
  if (found.length === 0) {
    say(`node ${version}: ${made.files.size} files and ${made.figures.size} figures are the same`);
    return true;
  }
  say(
    `node ${version}: ${found.length} of ${made.files.size} files and ${made.figures.size} figures differ:`,
  );
  for (const name of found.slice(0, shownAtMost)) say(`  ${name}`);
  if (found.length > shownAtMost) say(`  and ${found.length - shownAtMost} more`);
  return false;
}

function run(folder: string): void {
  const key = join(folder, "sharing.key");
  const engines = versions.map((version) => ({ version, engine: install(version, join(folder, "engines")) }));
  const installed = engines.filter(({ engine }) => engine !== null);
  for (const { version } of engines.filter(({ engine }) => engine === null))
    say(`node ${version}: skipped, it cannot be installed here`);
  if (installed.length === 0) {
    say("skipped: no other engine can be installed here, so nothing was compared");
    return;
  }
  say(`compared with node ${process.versions.node} on ${process.platform} ${process.arch}:`);
  const here = madeBy(process.execPath, { folder: join(folder, "here"), key });
  const verdicts = installed.map(({ version, engine }) =>
    compare(version, { made: madeBy(engine!, { folder: join(folder, version), key }), here }),
  );
  process.exitCode = verdicts.every(Boolean) ? 0 : 1;
}

const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-engines-"));
try {
  run(folder);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
