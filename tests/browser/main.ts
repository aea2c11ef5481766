import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import {
  answerAll,
  bring,
  launch,
  type OpenPage,
  openWorkbench,
  press,
  settled,
  troubles,
  violations,
} from "./desk-in-page.js";
import { inOwnColours, withKeyboardAlone } from "./everyone.js";
import { findBrowser } from "./find-browser.js";
import { everyKindOfHostileFile, hugeSheet } from "./hostile.js";
import { workIsKept } from "./kept-work.js";
import { sitesArePooled } from "./pooling-in-page.js";
import {
  draftsAreKept,
  fileIsWritten,
  fullStorageIsSaid,
  keysAreEnough,
  recordIsKept,
} from "./record-in-page.js";
import { talkPages } from "./talk-pages.js";

// The workbench in a real browser, opened from the disk: the whole path, the archive recomputed by the command line, every awful
// sheet, cells with markup, accessibility at each step, and no request for anything. With --pictures FOLDER it leaves pictures.

const root = fileURLToPath(new URL("../../../../../", import.meta.url));
const say = (text: string): void => {
  process.stdout.write(`${text}\n`);
};
const pictures = process.argv.includes("--pictures")
  ? process.argv[process.argv.indexOf("--pictures") + 1]!
  : null;
const failures: string[] = [];

function expectNone(what: string, found: readonly string[]): void {
  if (found.length === 0) return;
  failures.push(...found.map((one) => `${what}: ${one}`));
}

async function look({ page, faults }: OpenPage, step: string): Promise<void> {
  if (pictures !== null) {
    mkdirSync(pictures, { recursive: true });
    await page.screenshot({ path: join(pictures, `${step}.png`), fullPage: true });
  }
  expectNone(`accessibility, ${step}`, await violations(page));
  expectNone(step, faults.splice(0));
}

const registry = [
  "study.yaml",
  ...["injuries", "treatments", "imaging", "visits", "sites"].map((t) => `synthetic-${t}.csv`),
].map((name) => join(root, "synthetic-data/registry", name));

/** The whole path; the archive it ends with is unpacked and recomputed. */
async function wholePath(browser: Browser, { width, dark }: { width: number; dark: boolean }): Promise<void> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    acceptDownloads: true,
    colorScheme: dark ? "dark" : "light",
  });
  const open = await openWorkbench(context);
  const { page } = open;
  const name = (step: string) => `${width}${dark ? "-dark" : ""}-${step}`;
  await look(open, name("1-bring"));
  await bring(page, registry);
  await look(open, name("3-queries"));
  await press(page, "Go on to the question");
  await look(open, name("4-ask"));
  await press(page, "Answer");
  await page.locator(".walk").waitFor();
  const before = await page.locator(".day-words").textContent();
  await page.locator("input.day").focus();
  await page.keyboard.press("ArrowRight");
  await page.waitForTimeout(100);
  if ((await page.locator(".day-words").textContent()) === before)
    failures.push("the arrow keys do not walk along the curve");
  await look(open, name("5-read"));
  await page.getByText("The whole report").click();
  await settled(page);
  await page.locator(".paper").waitFor();
  await look(open, name("5-whole-report"));
  const isWide = await page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  );
  if (isWide) failures.push(`at a width of ${width} the page scrolls sideways`);
  if (width === 1200 && !dark) {
    await talkPageIsTheSame(page);
    await archiveRecomputes(page);
  }
  expectNone("the whole path", [...open.faults, ...(await troubles(page))]);
  await context.close();
}

/** The page to talk over is that of the command line, to the byte. */
async function talkPageIsTheSame(page: Page): Promise<void> {
  const group = "grade 3, ring";
  await page.getByRole("combobox", { name: "About" }).selectOption(group);
  const download = page.waitForEvent("download", { timeout: 600_000 });
  await page.getByRole("button", { name: "Save the page" }).click();
  const saved = readFileSync(await (await download).path());
  const folder = mkdtempSync(join(tmpdir(), "workbench-"));
  const into = join(folder, "talk.html");
  const words = ["talk", join(root, "synthetic-data/registry/study.yaml"), "--for", group, "--into", into];
  execFileSync(process.execPath, [join(root, "dist/command/main.js"), ...words]);
  if (!saved.equals(readFileSync(into)))
    failures.push("the page to talk over is not that of the command line");
  rmSync(folder, { recursive: true });
  await settled(page);
}

async function archiveRecomputes(page: Page): Promise<void> {
  const download = page.waitForEvent("download", { timeout: 600_000 });
  await page.getByRole("button", { name: "Save the archive" }).click();
  const archive = await (await download).path();
  const folder = mkdtempSync(join(tmpdir(), "workbench-"));
  for (const [path, content] of Object.entries(unzipSync(readFileSync(archive)))) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  try {
    say(
      execFileSync(
        process.execPath,
        [join(root, "dist/command/main.js"), "recompute", join(folder, "report")],
        {
          encoding: "utf8",
        },
      ).trim(),
    );
  } catch (error) {
    failures.push(`the archive does not recompute: ${String((error as { stdout?: string }).stdout)}`);
  }
  rmSync(folder, { recursive: true });
}

/** Each awful sheet is answered, refused or asked about; the page survives and says what is the matter. */
async function awfulSheets(browser: Browser): Promise<void> {
  const shapes = join(root, "tests/behaviour/ingest/shapes");
  const names = readdirSync(shapes).filter(
    (name) => /\.(csv|xlsx)$/.test(name) && !name.includes("codes-book"),
  );
  for (const name of names) {
    const context = await browser.newContext();
    const open = await openWorkbench(context);
    const { page } = open;
    await bring(page, [join(shapes, name)]);
    const asked = await answerAll(page);
    const agreed = page.getByRole("button", { name: "The rows are read rightly" });
    if ((await agreed.count()) > 0 && (await agreed.isEnabled())) {
      await agreed.click();
      await settled(page);
    }
    const words = [
      ...(await page.locator(".accounts li").allTextContents()),
      ...(await troubles(page)),
      // what no answer proposed can settle stays a question
      ...(await page.locator(".question legend").allTextContents()),
    ];
    say(`${name}: ${asked} questions; ${words.join("; ").slice(0, 200)}`);
    if (words.length === 0) failures.push(`${name}: neither rows nor a reason`);
    expectNone(name, open.faults);
    await context.close();
  }
}

/** A cell with markup is a text, wherever it is shown. */
async function markupIsText(browser: Browser): Promise<void> {
  const context = await browser.newContext();
  const open = await openWorkbench(context);
  const evil = '<img src=x onerror="document.title=1">';
  const text = `person,injury_date,hand,finger,pulleys,grade,full,last_contact\n"${evil.replaceAll('"', '""')}",2024-01-01,left,ring,A2,"${evil.replaceAll('"', '""')}",,2024-06-01\nP2,2024-01-02,left,ring,A2,2,2024-03-01,2024-06-01\n`;
  await bring(open.page, [{ name: "sheet.csv", mimeType: "text/csv", buffer: Buffer.from(text) }]);
  await settled(open.page);
  if ((await open.page.locator("img").count()) > 0) failures.push("a cell with markup became markup");
  if (!(await open.page.locator("main").textContent())!.includes("<img"))
    failures.push("a cell with markup is not shown as a text");
  expectNone("cells with markup", open.faults);
  await context.close();
}

/** What cannot be read is refused in words, and the next file is read as if nothing had been. */
async function survives(browser: Browser): Promise<void> {
  const context = await browser.newContext();
  const open = await openWorkbench(context);
  const noise = Buffer.from(Uint8Array.from({ length: 50_000 }, (_, i) => (i * 7919) % 256));
  for (const name of ["noise.csv", "noise.xlsx", "noise.yaml"]) {
    await bring(open.page, [{ name, mimeType: "application/octet-stream", buffer: noise }]);
    const found = await troubles(open.page);
    if (found.length === 0) failures.push(`${name}: is not refused`);
    else if (found.some((words) => words.includes("toolkit itself")))
      failures.push(`${name}: ${found.join(" ")}`);
  }
  await bring(open.page, registry);
  if ((await open.page.locator(".accounts li").count()) !== 5)
    failures.push("after a refusal no file is read any more");
  expectNone("what cannot be read", open.faults);
  await context.close();
}

const tools = { root, look, fail: (what: string) => failures.push(what) };

/** The record that is kept as people are treated. */
async function recordOf(browser: Browser): Promise<void> {
  await recordIsKept(browser, { width: 1200, dark: false }, tools);
  await recordIsKept(browser, { width: 768, dark: true }, tools);
  await recordIsKept(browser, { width: 320, dark: false }, tools);
  await draftsAreKept(browser, tools);
  await fullStorageIsSaid(browser, tools);
  await fileIsWritten(browser, tools);
  await keysAreEnough(browser, tools);
}

const path = findBrowser();
if (path === null) {
  say("No browser was found and none could be installed: install chromium, or set BROWSER_PATH. Skipped.");
} else {
  const browser = await launch(path);
  await wholePath(browser, { width: 1200, dark: false });
  await wholePath(browser, { width: 768, dark: true });
  await wholePath(browser, { width: 320, dark: false });
  await recordOf(browser);
  await sitesArePooled(browser, { width: 1200, dark: false }, tools);
  await sitesArePooled(browser, { width: 320, dark: true }, tools);
  await awfulSheets(browser);
  await markupIsText(browser);
  await survives(browser);
  expectNone("hostile files", await everyKindOfHostileFile(browser));
  const huge = await hugeSheet(browser, { rows: 200_000, mostMegabytes: 1_000 });
  say(`200,000 rows: ${huge.said}`);
  expectNone("a huge sheet", huge.found);
  expectNone(
    "work that is kept",
    await workIsKept(browser, join(root, "tests/behaviour/ingest/shapes/08-mixed-cells.csv")),
  );
  expectNone("with the keyboard alone", await withKeyboardAlone(browser));
  expectNone("in the colours of the system", await inOwnColours(browser));
  const talk = await talkPages(browser, { root, pictures });
  say(`${talk.made} pages to talk over, each printed`);
  expectNone("page to talk over", talk.faults);
  await browser.close();
  for (const failure of failures) say(`FAILED ${failure}`);
  say(failures.length === 0 ? "The workbench holds in a browser." : `${failures.length} failures`);
  process.exitCode = failures.length === 0 ? 0 : 1;
}
