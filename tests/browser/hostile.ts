import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { seededGenerator } from "../../src/statistics/shared/random.js";
import { kinds } from "../fuzz/kinds.js";
import { bring, openWorkbench, settled, troubles } from "./desk-in-page.js";

/** What the page says of what was brought: rows, questions about columns, or why it cannot be used. */
async function saidOf(page: Page): Promise<readonly string[]> {
  const said = [".accounts li", ".question legend", ".found"].map((place) =>
    page.locator(place).allTextContents(),
  );
  return [...(await Promise.all(said)).flat(), ...(await troubles(page))];
}

/** The same, once there is something: a file of tens of megabytes is read before anything can be said of it. */
async function saidAtLast(page: Page): Promise<readonly string[]> {
  for (let tries = 0; tries < 400; tries++) {
    await settled(page);
    const said = await saidOf(page);
    if (said.length > 0) return said;
  }
  return [];
}

/** Of each kind of malformed file one: the page says something of it, and never that the toolkit itself has failed. */
export async function everyKindOfHostileFile(browser: Browser): Promise<readonly string[]> {
  const found: string[] = [];
  const context = await browser.newContext();
  let open = await openWorkbench(context);
  const draw = seededGenerator(20_261_128, 1);
  for (const { name, make } of kinds) {
    const { table, bytes } = make(draw);
    const isWorkbook = bytes[0] === 0x50 && bytes[1] === 0x4b;
    const file = `${table}.${isWorkbook ? "xlsx" : "csv"}`;
    await bring(open.page, [
      { name: file, mimeType: "application/octet-stream", buffer: Buffer.from(bytes) },
    ]);
    const said = await saidAtLast(open.page);
    if (said.length === 0) found.push(`${name}: nothing is said of it`);
    found.push(
      ...said.filter((words) => words.includes("toolkit itself")).map((words) => `${name}: ${words}`),
    );
    found.push(...open.faults.splice(0).map((fault) => `${name}: ${fault}`));
    await open.page.close();
    open = await openWorkbench(context);
  }
  await context.close();
  return found;
}

const record = (i: number): string =>
  `P${i},2023-0${1 + (i % 9)}-1${i % 10},left,ring,A2,${2 + (i % 2)},${i % 2 === 0 ? "tape" : "ring"},2023-0${1 + (i % 9)}-2${i % 10},2024-0${1 + (i % 3)}-10,2024-06-01`;
const header = "person,injury_date,hand,finger,pulleys,grade,treatment,treatment_start,full,last_contact";

/** A sheet of very many rows: read or refused in words within the memory stated, and the page reads the next file. */
export async function hugeSheet(
  browser: Browser,
  { rows, mostMegabytes }: { readonly rows: number; readonly mostMegabytes: number },
): Promise<{ readonly said: string; readonly found: readonly string[] }> {
  const path = join(tmpdir(), `huge-${process.pid}.csv`);
  writeFileSync(path, [header, ...Array.from({ length: rows }, (_, i) => record(i))].join("\n"));
  const context = await browser.newContext();
  const open = await openWorkbench(context);
  const found: string[] = [];
  await bring(open.page, [path]);
  const said = await saidAtLast(open.page);
  if (said.length === 0) found.push("a huge sheet: nothing is said of it");
  found.push(...said.filter((words) => words.includes("toolkit itself")));
  const megabytes = await mostMemoryOf(browser);
  if (megabytes > mostMegabytes)
    found.push(`a huge sheet: ${megabytes} MB were taken, more than the ${mostMegabytes} stated`);
  rmSync(path);
  const small = Buffer.from([header, record(1), record(2)].join("\n"));
  await bring(open.page, [{ name: "small.csv", mimeType: "text/csv", buffer: small }]);
  if (!(await saidOf(open.page)).some((words) => words.includes("2 rows")))
    found.push("after a huge sheet no file is read any more");
  found.push(...open.faults);
  await context.close();
  return { said: `${said.join("; ").slice(0, 200)}; ${megabytes} MB`, found };
}

/** The most memory that a page and its worker have taken so far, megabytes; 0 where the system does not tell. */
async function mostMemoryOf(browser: Browser): Promise<number> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send("SystemInfo.getProcessInfo");
  await session.detach();
  const most = processInfo
    .filter(({ type }) => type === "renderer")
    .map(({ id }) => {
      const status = `/proc/${id}/status`;
      const kilobytes = existsSync(status)
        ? /^VmHWM:\s*(\d+)/m.exec(readFileSync(status, "utf8"))?.[1]
        : undefined;
      return Number(kilobytes ?? 0) / 1000;
    });
  return Math.round(Math.max(0, ...most));
}
