// 200 sites and 1,000,000 injuries pooled through weekly risk-set tables: what the sites make, and what the coordinator makes of it.
// npm run bench:pooled [-- SITES INJURIES]. Each part in a process of its own; writes tests/bench/pooled-scale.md at the full size.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { OutcomeRecord } from "../../src/cohort/record.js";
import { poolTables, riskSetsOf, riskSetsSchema } from "../../src/pooling/tables/index.js";
import { seededGenerator } from "../../src/statistics/index.js";
import type { Members, Settled } from "../../src/study/groups.js";
import { planSchema, specificationOf } from "../../src/study/index.js";

const own = fileURLToPath(import.meta.url);
const grades = ["1", "2", "3", "4a"] as const;

const plan = planSchema.parse({ study: "scale", title: "Scale", synthetic: true, data: {} });
const asked: Settled = { ...specificationOf(plan), path: "days" };

/** Injuries of an invented site: returns sooner with a ring and with lower grades, some given up, some lost. SYNTHETIC. */
function membersOf(site: number, injuries: number): readonly Members[] {
  const { uniform } = seededGenerator(20_261_128, site);
  const exponential = (rate: number) => -Math.log(uniform()) / rate;
  const records = { ring: [] as OutcomeRecord[], tape: [] as OutcomeRecord[] };
  for (let i = 0; i < injuries; i++) {
    const ring = uniform() < 0.5;
    const grade = Math.floor(uniform() * grades.length);
    const back = 21 + exponential((ring ? 1.25 : 1) / (60 + 25 * grade));
    const [gaveUp, lost] = [exponential(1 / 2000), 30 + exponential(1 / 500)];
    const time = Math.min(back, gaveUp, lost, 700);
    const entry = uniform() < 0.3 ? Math.floor(uniform() * Math.min(14, time)) : -1;
    const record: Partial<OutcomeRecord> = {
      injury: `${site}-${i}`,
      person: `${site}-${Math.floor(i / 1.1)}`,
      time: Math.ceil(time),
      entry,
      end: time === back ? "milestone" : time === gaveUp ? "gave_up" : "censored",
      covariates: { grade: grades[grade]! } as unknown as OutcomeRecord["covariates"],
    };
    records[ring ? "ring" : "tape"].push(record as OutcomeRecord);
  }
  return [
    { label: "ring", records: records.ring },
    { label: "tape", records: records.tape },
  ];
}

interface Part {
  readonly seconds: number;
  readonly megabytes: number;
  /** What was found, for the page. */
  readonly said: string;
}

/** Tables of all sites, one after the other; the drawing is not timed. */
function makeTables(folder: string, sites: number, each: number, smallestCell: number): Part {
  let seconds = 0;
  let bins = 0;
  let left = 0;
  for (let site = 0; site < sites; site++) {
    const groups = membersOf(site, each);
    const start = performance.now();
    const made = riskSetsOf(groups, { binDays: 7, smallestCell, coarser: smallestCell > 1, asked });
    if (made.leaves) {
      writeFileSync(join(folder, `site-${String(site).padStart(4, "0")}.json`), JSON.stringify(made.table));
      bins += made.table.bin_ends.length;
      left++;
    }
    seconds += (performance.now() - start) / 1000;
  }
  const found = `${left} of ${sites} sites have a table, ${left > 0 ? (bins / left).toFixed(0) : "0"} bins on average`;
  return { seconds, megabytes: process.resourceUsage().maxRSS / 1000, said: found };
}

function pool(folder: string): Part {
  const start = performance.now();
  const tables = readdirSync(folder).map((file) => ({
    site: file.replace(".json", ""),
    file,
    risk_sets: riskSetsSchema.parse(JSON.parse(readFileSync(join(folder, file), "utf8"))),
  }));
  const { labels: groups, reference } = asked.comparison;
  const found = poolTables(tables, {
    groups,
    reference,
    shareBack: asked.shareBack,
    level: 0.95,
    ties: "efron",
  });
  const ratio = found.hazard_ratios[0];
  const digits = (value: number | null | undefined) => value?.toFixed(4) ?? "none";
  return {
    seconds: (performance.now() - start) / 1000,
    megabytes: process.resourceUsage().maxRSS / 1000,
    said: `${found.injuries} injuries, ${found.events} returns; hazard ratio ${digits(ratio?.estimate)} (${digits(ratio?.lower)} to ${digits(ratio?.upper)}), true value 1.25 after the third week`,
  };
}

function spawned(...words: readonly string[]): Part {
  const ran = spawnSync(process.execPath, [own, ...words], { encoding: "utf8" });
  if (ran.status !== 0) throw new Error(ran.stderr);
  return JSON.parse(ran.stdout) as Part;
}

function main(sites: number, injuries: number): void {
  const lines = [1, 5].flatMap((smallestCell) => {
    const folder = mkdtempSync(join(tmpdir(), "pulley-outcomes-pooled-"));
    const made = spawned(
      "make",
      folder,
      String(sites),
      String(Math.round(injuries / sites)),
      String(smallestCell),
    );
    const bytes = readdirSync(folder).reduce((sum, file) => sum + statSync(join(folder, file)).size, 0);
    const pooled = spawned("pool", folder);
    rmSync(folder, { recursive: true });
    const line = (what: string, { seconds, megabytes, said }: Part) =>
      `| ${smallestCell === 1 ? "every week" : "smallest cell 5, coarser bins"} | ${what} | ${seconds.toFixed(1)} s | ${megabytes.toFixed(0)} MB | ${said} |`;
    return [
      line(`tables of all sites, ${(bytes / 1e6).toFixed(0)} MB`, made),
      line("read, checked and pooled", pooled),
    ];
  });
  const page = [
    "# Many sites pooled",
    "",
    `${sites} invented sites with ${injuries} injuries together (SYNTHETIC), two groups and four grades, pooled through weekly risk-set tables: curves of all, log-rank test and`,
    `hazards regression within each grade of each site. Each part in a process of its own, one run, Node ${process.versions.node}; memory is the most that the process held.`,
    "Made by `npm run bench:pooled`.",
    "",
    "| counts that leave | part | time | memory | found |",
    "| --- | --- | --- | --- | --- |",
    ...lines,
    "",
  ].join("\n");
  process.stdout.write(page);
  if (sites === 200 && injuries === 1_000_000) writeFileSync("tests/bench/pooled-scale.md", page);
}

const [first, folder, ...numbers] = process.argv.slice(2);
const [sites, each, smallest] = numbers.map(Number) as [number, number, number];
if (first === "make") process.stdout.write(JSON.stringify(makeTables(folder!, sites, each, smallest)));
else if (first === "pool") process.stdout.write(JSON.stringify(pool(folder!)));
else main(Number(first ?? 200), Number(folder ?? 1_000_000));
