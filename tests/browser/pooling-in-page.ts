import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { unzipSync } from "fflate";
import type { Browser, Page } from "playwright-core";
import { bring, openWorkbench, press, settled, troubles } from "./desk-in-page.js";
import type { Tools } from "./record-in-page.js";

// Sites in a real browser: what would leave is seen before it is saved, the summaries are pooled without a patient's row, and the command
// line writes and recomputes the same.

const sites = ["site-a", "site-b", "site-c"] as const;

interface Look {
  readonly width: number;
  readonly dark: boolean;
}

/** A file as the page gives it to be saved. */
async function saved(page: Page, button: string): Promise<{ readonly name: string; readonly bytes: Buffer }> {
  const download = page.waitForEvent("download", { timeout: 600_000 });
  await page.getByRole("button", { name: button, exact: true }).click();
  const file = await download;
  await settled(page);
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

/** The whole way of a study of three sites; each file is compared with that of the command line. */
export async function sitesArePooled(browser: Browser, { width, dark }: Look, tools: Tools): Promise<void> {
  const { root, look, fail } = tools;
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    acceptDownloads: true,
    colorScheme: dark ? "dark" : "light",
  });
  const open = await openWorkbench(context);
  const { page } = open;
  const step = (name: string) => `${width}${dark ? "-dark" : ""}-${name}`;
  const isWide = () =>
    page.evaluate(() => document.documentElement.scrollWidth > document.documentElement.clientWidth);
  const cohort = join(root, "synthetic-data/three-sites");
  const tables = ["injuries", "treatments", "imaging", "visits", "sites"].map((t) => `synthetic-${t}.csv`);
  await bring(
    page,
    ["study.yaml", ...tables].map((name) => join(cohort, name)),
  );
  await press(page, "Go on to the question");
  await page.getByText("Your site takes part in a study of several sites").click();
  await page.getByLabel("The shared study file (.yaml)").setInputFiles(join(cohort, "study.yaml"));
  await settled(page);
  if ((await page.getByText("The question above was taken from study.yaml").count()) === 0)
    fail("the shared question is not said to be taken");
  await press(page, "Answer");
  const folder = mkdtempSync(join(tmpdir(), "workbench-"));
  const run = (...words: string[]) =>
    execFileSync(process.execPath, [join(root, "dist/command/main.js"), ...words], { cwd: folder });
  const named: string[] = [];
  for (const site of sites) {
    await page.getByRole("combobox", { name: "The site, of those in the tables" }).selectOption(site);
    await press(page, "See what would leave");
    if (site === "site-a") {
      await page.getByText("Everything in the file, figure by figure").click();
      await look(open, step("7-what-leaves"));
      if (await isWide()) fail(`at a width of ${width} what leaves scrolls sideways`);
    }
    const [board, summary] = [
      await saved(page, "Save the page for the ethics board"),
      await saved(page, "Save the summary"),
    ];
    run("contribute", join(cohort, "study.yaml"), "--site", site, "--into", site);
    for (const { name, bytes } of [board, summary])
      if (!bytes.equals(readFileSync(join(folder, site, name))))
        fail(`${name} is not that of the command line`);
    writeFileSync(join(folder, summary.name), summary.bytes);
    named.push(summary.name);
  }
  await press(page, "Forget everything");
  await bring(
    page,
    named.map((name) => join(folder, name)),
  );
  await page.locator(".pool .paper").first().waitFor();
  await look(open, step("8-pooled"));
  await page.getByText("The whole pooled report").click();
  await look(open, step("8-whole-pooled-report"));
  if (await isWide()) fail(`at a width of ${width} the pooled report scrolls sideways`);
  const merged = await saved(page, "Save all summaries in one file");
  run("pool", ...named, "--only-merge", "merged.json");
  if (!merged.bytes.equals(readFileSync(join(folder, "merged.json"))))
    fail("the merged file is not that of the command line");
  const archive = await saved(page, "Save the pooled report");
  for (const [path, content] of Object.entries(unzipSync(archive.bytes))) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  try {
    run("recompute", "pooled");
  } catch (error) {
    fail(`the pooled report does not recompute: ${String((error as { stdout?: Buffer }).stdout)}`);
  }
  rmSync(folder, { recursive: true });
  for (const one of [...open.faults, ...(await troubles(page))]) fail(`sites pooled: ${one}`);
  await othersArePooled(page, { summary: merged.bytes, fail });
  await context.close();
}

/** With keys alone: what is no summary is said by its name, the others are pooled, and a file is taken out again. */
async function othersArePooled(
  page: Page,
  { summary, fail }: { readonly summary: Buffer; readonly fail: Tools["fail"] },
): Promise<void> {
  const inFile = (name: string, buffer: Buffer) => ({ name, mimeType: "application/json", buffer });
  await page
    .locator(".pool input[type=file]")
    .setInputFiles([inFile("rows.json", Buffer.from("person,injury_date")), inFile("region.json", summary)]);
  await settled(page);
  const refused = await troubles(page);
  if (refused.length !== 1 || !refused[0]!.includes("rows.json"))
    fail(`what is no summary is not said by its name: ${refused.join(" ")}`);
  await page.getByRole("button", { name: "Take out region.json" }).focus();
  await page.keyboard.press("Enter");
  await settled(page);
  if (await page.evaluate(() => document.activeElement === document.body))
    fail("a summary is taken out: the keyboard is lost");
  if ((await page.getByRole("button", { name: /^Take out/ }).count()) !== sites.length)
    fail("a summary that was taken out is still there");
}
