// A CSV of 1,000,000 rows of 20 columns, typed and validated as a stream, beside the CSV package alone on the same file.
// npm run bench:scale [-- ROWS]. Each run in a process of its own, in turn; writes tests/bench/scale.md at the full size.
import { spawnSync } from "node:child_process";
import { once } from "node:events";
import { createReadStream, createWriteStream, mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import Papa from "papaparse";
import { piecesOfFile } from "../../src/cli/read-input.js";
import { streamTable } from "../../src/ingest/stream/index.js";
import { csvTable, csvText } from "./csv.js";
import { median } from "./timing.js";

interface Run {
  readonly rows: number;
  readonly seconds: number;
  readonly megabytes: number;
}

const own = fileURLToPath(import.meta.url);
const ways = ["package alone", "typed and validated", "typed and validated, keys in no order"] as const;
type Way = (typeof ways)[number];

/** Rows read by the package with no further use made of them. */
const alone = (path: string): Promise<number> =>
  new Promise((done, fail) => {
    let rows = -1;
    Papa.parse(createReadStream(path, { encoding: "utf8" }), {
      delimiter: ",",
      newline: "\n",
      chunk: ({ data }) => {
        rows += data.length;
      },
      complete: () => done(rows),
      error: fail,
    });
  });

async function typed(path: string): Promise<number> {
  const { read, used, setAside } = await streamTable(
    { file: path, open: () => piecesOfFile(path) },
    {
      table: csvTable,
      rules: [],
      context: { closedOn: null, dateOrder: "year-first" },
      onRow: () => undefined,
    },
  );
  if (used !== read || setAside !== 0) throw new Error(`${read} rows read, ${used} used`);
  return read;
}

async function runOne(way: Way, path: string): Promise<void> {
  const start = performance.now();
  const rows = await (way === "package alone" ? alone(path) : typed(path));
  const run: Run = {
    rows,
    seconds: (performance.now() - start) / 1000,
    megabytes: process.resourceUsage().maxRSS / 1000,
  };
  process.stdout.write(JSON.stringify(run));
}

function spawned(way: Way, path: string): Run {
  const ran = spawnSync(process.execPath, [own, way, path], { encoding: "utf8" });
  if (ran.status !== 0) throw new Error(ran.stderr);
  return JSON.parse(ran.stdout) as Run;
}

/** Rows in the order of a fixed step, so that no key follows the one before. */
async function writeInNoOrder(text: string, path: string): Promise<void> {
  const [header, ...lines] = text.trimEnd().split("\n");
  const out = createWriteStream(path);
  const step = 7919;
  out.write(`${header}\n`);
  for (let at = 0; at < lines.length; at++) {
    if (!out.write(`${lines[(at * step) % lines.length]}\n`)) await once(out, "drain");
  }
  out.end();
  await once(out, "finish");
}

async function main(rows: number): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-scale-"));
  const [ordered, shuffled] = [join(folder, "ordered.csv"), join(folder, "shuffled.csv")];
  const text = csvText(rows);
  writeFileSync(ordered, text);
  await writeInNoOrder(text, shuffled);
  const runs = new Map<Way, Run[]>(ways.map((way) => [way, []]));
  for (let round = 0; round < 5; round++) {
    for (const way of ways) runs.get(way)!.push(spawned(way, way === ways[2] ? shuffled : ordered));
  }
  const secondsOf = (way: Way) => median(runs.get(way)!.map(({ seconds }) => seconds));
  const line = (way: Way) => {
    const memory = Math.max(...runs.get(way)!.map(({ megabytes }) => megabytes));
    return `| ${way} | ${secondsOf(way).toFixed(2)} s | ${memory.toFixed(0)} MB | ${(secondsOf(way) / secondsOf(ways[0])).toFixed(2)} |`;
  };
  const page = [
    "# A large table",
    "",
    `${rows} rows of 20 columns, ${(statSync(ordered).size / 1e6).toFixed(0)} MB of CSV (the recipe of \`csv20\`), read as a stream. Medians of five runs in turn, each in a`,
    `process of its own, Node ${process.versions.node}; memory is the most that the process held. The second and third type every cell, hold it`,
    "against its schema, keep the account of the rows and find keys that come twice. Made by `npm run bench:scale`.",
    "",
    "| what | time | memory | ratio |",
    "| --- | --- | --- | --- |",
    ...ways.map(line),
    "",
  ].join("\n");
  process.stdout.write(page);
  if (rows === 1_000_000) writeFileSync("tests/bench/scale.md", page);
  rmSync(folder, { recursive: true });
}

const [first, path] = process.argv.slice(2);
if (path !== undefined) await runOne(first as Way, path);
else await main(Number(first ?? 1_000_000));
