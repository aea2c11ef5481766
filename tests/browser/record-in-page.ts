import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, BrowserContext, Page } from "playwright-core";
import { type OpenPage, openWorkbench, settled } from "./desk-in-page.js";

// The record in a real browser: written, checked while typing, saved and read by the command line, kept in the browser or not.

export interface Tools {
  readonly root: string;
  readonly look: (open: OpenPage, step: string) => Promise<void>;
  readonly fail: (what: string) => void;
}

/** The field of the row that is being written last. */
const field = (page: Page, name: string) => page.locator(`[id^="row-"][id$="-${name}"]`).last();
const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name }).first();

/** Somebody who chooses files by downloads, as in browsers that cannot write to the disk. */
async function recordIn(context: BrowserContext): Promise<OpenPage> {
  await context.addInitScript(() => {
    Object.assign(globalThis, { showSaveFilePicker: undefined, showOpenFilePicker: undefined });
  });
  return opened(context);
}

async function opened(context: BrowserContext): Promise<OpenPage> {
  const open = await openWorkbench(context);
  await button(open.page, /^(Keep a record as you treat|Go on with the record)$/).click();
  await open.page.getByRole("heading", { name: "A record as you treat" }).waitFor();
  return open;
}

const injury: readonly (readonly [string, string])[] = [
  ["person_id", "P01"],
  ["injury_date", "2024-03-04"],
  ["first_visit_date", "2024-03-06"],
  ["hand", "left"],
  ["finger", "ring"],
  ["pulleys", "A2"],
  ["grade", "3"],
  ["last_contact_date", "2024-03-06"],
];

async function write(page: Page, name: string, text: string): Promise<void> {
  const at = field(page, name);
  if ((await at.evaluate((element) => element.tagName)) === "SELECT") await at.selectOption(text);
  else await at.fill(text);
}

async function newInjury(page: Page, person = "P01"): Promise<void> {
  await button(page, "New injury").click();
  for (const [name, text] of injury) await write(page, name, name === "person_id" ? person : text);
}

async function keep(page: Page): Promise<void> {
  await page.locator(".record-form button[type=submit]").click();
  await page.locator(".record-form").waitFor({ state: "detached" });
}

async function saved(page: Page, name: string): Promise<Buffer> {
  const download = page.waitForEvent("download");
  await button(page, name).click();
  return readFileSync(await (await download).path());
}

/** An injury and its next visit: wrong first, said at the field, corrected, saved, and read by the command line. */
export async function recordIsKept(
  browser: Browser,
  { width, dark }: { readonly width: number; readonly dark: boolean },
  { root, look, fail }: Tools,
): Promise<void> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    acceptDownloads: true,
    colorScheme: dark ? "dark" : "light",
  });
  const open = await recordIn(context);
  const { page } = open;
  const step = (name: string) => `${width}${dark ? "-dark" : ""}-record-${name}`;
  await look(open, step("1-empty"));
  await newInjury(page);
  await write(page, "injury_date", "4.3.2024");
  await write(page, "age_at_injury", "129");
  await page.locator(".found-line", { hasText: "4.3.2024" }).waitFor();
  const described = (await field(page, "injury_date").getAttribute("aria-describedby")) ?? "";
  const said = await page.locator(`#${described.split(" ").at(-1)}`).textContent();
  if (!said?.includes("4.3.2024") || !said.includes("year-month-day"))
    fail(`the date is not asked about at its field: ${said}`);
  await look(open, step("2-asked"));
  await page.locator(".record-form button[type=submit]").click();
  await button(page, "Keep it as it is").waitFor();
  await write(page, "injury_date", "2024-03-04");
  await write(page, "age_at_injury", "29");
  await button(page, "A treatment begun").click();
  await write(page, "treatment", "tape");
  await keep(page);
  await button(page, /^Next visit/).click();
  await page.locator('[id$="-date"]').first().fill("2024-06-10");
  await field(page, "full_climbing_date").fill("2024-06-03");
  await button(page, "A distance read").click();
  for (const [name, text] of [
    ["modality", "ultrasound"],
    ["pulley", "A2"],
    ["position", "loaded"],
    ["distance_mm", "2.9"],
  ] as const)
    await write(page, name, text);
  await button(page, /^The end of tape/).click();
  await write(page, "end_date", "2024-05-01");
  await page.waitForTimeout(500);
  await look(open, step("3-visit"));
  await keep(page);
  await page.getByText("full climbing 2024-06-03").waitFor();
  await page.locator(".injuries summary").click();
  await look(open, step("4-list"));
  const isWide = await page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  );
  if (isWide) fail(`at a width of ${width} the record scrolls sideways`);
  await commandReads(page, { root, fail });
  await removedAndBack(page, { fail });
  await button(page, "Ask these data a question").click();
  await settled(page);
  await page.locator(".accounts li").first().waitFor();
  const accounts = await page.locator(".accounts li").allTextContents();
  if (accounts.length !== 4) fail(`the record is brought as ${accounts.join("; ")}`);
  for (const fault of open.faults) fail(`record: ${fault}`);
  await context.close();
}

/** The file and its study file, as they are handed out, are what `check` reads: every row used. */
async function commandReads(page: Page, { root, fail }: Pick<Tools, "root" | "fail">): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "workbench-record-"));
  writeFileSync(join(folder, "record.xlsx"), await saved(page, "Save the file"));
  writeFileSync(join(folder, "study.yaml"), await saved(page, "Study file for the command line"));
  await button(page, "It is there").click();
  await page.getByText("all changes are in the file", { exact: false }).first().waitFor();
  try {
    execFileSync(
      process.execPath,
      [join(root, "dist/command/main.js"), "check", join(folder, "study.yaml")],
      {
        encoding: "utf8",
      },
    );
  } catch (error) {
    const { status, stdout } = error as { status: number; stdout: string };
    // queries to look at are no fault of the record; rows that are set aside would be
    if (status > 1 || stdout.includes("until this is corrected")) fail(`the command line reads: ${stdout}`);
  }
  rmSync(folder, { recursive: true });
}

/** So many injuries are listed: the list follows the record once the engine has looked at it. */
async function listed(page: Page, count: number): Promise<boolean> {
  const rows = page.locator(".injuries > li");
  const wanted = count === 0 ? rows : rows.nth(count - 1);
  await wanted.waitFor({ state: count === 0 ? "detached" : "attached", timeout: 30_000 }).catch(() => {});
  return (await rows.count()) === count;
}

/** What is taken out is asked about first, and can be put back. */
async function removedAndBack(page: Page, { fail }: Pick<Tools, "fail">): Promise<void> {
  const dialog = page.getByRole("dialog");
  await button(page, /^Take out P01/).click();
  await dialog.waitFor();
  await page.keyboard.press("Escape");
  await dialog.waitFor({ state: "detached" });
  if (!(await listed(page, 1))) fail("an injury was taken out although nobody said yes");
  await button(page, /^Take out P01/).click();
  await dialog.getByRole("button", { name: "Take it out" }).click();
  if (!(await listed(page, 0))) fail("what was taken out is still listed");
  await button(page, "Put back what was taken out").click();
  await page.getByText("full climbing 2024-06-03").waitFor();
}

/** Nothing is stored before somebody says yes; then a reload offers all of it, and forgetting leaves nothing. */
export async function draftsAreKept(browser: Browser, { fail }: Tools): Promise<void> {
  const context = await browser.newContext();
  const open = await recordIn(context);
  const { page } = open;
  const stored = () => page.evaluate(() => localStorage.length);
  await newInjury(page);
  await keep(page);
  if ((await stored()) !== 0) fail("something was stored before anybody said yes");
  const asked = page.waitForEvent("dialog", { timeout: 10_000 }).catch(() => null);
  await page.close({ runBeforeUnload: true });
  const dialog = await asked;
  if (dialog?.type() !== "beforeunload") fail("the page closes without a word while rows are in no file");
  await dialog?.dismiss();
  await page.getByText("Keep what I write in this browser too").click();
  await button(page, "Yes, keep it in this browser").click();
  await newInjury(page, "P02");
  await page.reload();
  await button(page, "Go on with the record").click();
  await button(page, "Go on with it").click();
  if ((await field(page, "person_id").inputValue()) !== "P02")
    fail("a form that was begun is gone after a reload");
  await keep(page);
  if (!(await listed(page, 2))) fail("after a reload one of two injuries is gone");
  await button(page, "Forget everything").click();
  await page.getByRole("dialog").getByRole("button", { name: "Forget it all" }).click();
  await page.waitForTimeout(600);
  if ((await stored()) !== 0) fail("something is stored after everything was forgotten");
  for (const fault of open.faults) fail(`drafts: ${fault}`);
  await context.close();
}

/** A full storage is said, and loses nothing. */
export async function fullStorageIsSaid(browser: Browser, { fail }: Tools): Promise<void> {
  const context = await browser.newContext();
  const open = await recordIn(context);
  const { page } = open;
  await page.evaluate(() => {
    for (let size = 4_000_000; size >= 1; size = Math.floor(size / 2))
      for (let i = 0; i < 3; i++)
        try {
          localStorage.setItem(`full-${size}-${i}`, "x".repeat(size));
        } catch {
          // no more room for a text of this length
        }
  });
  await newInjury(page);
  await keep(page);
  await page.getByText("Keep what I write in this browser too").click();
  await button(page, "Yes, keep it in this browser").click();
  await page.getByText("This browser cannot keep what you write").waitFor();
  if (!(await listed(page, 1))) fail("a full storage lost a row");
  if ((await saved(page, "Save the file")).length < 1000) fail("with a full storage no file is saved");
  await context.close();
}

/** Where the browser can write to the disk, the same file is written again, and one that was changed elsewhere is asked about. */
export async function fileIsWritten(browser: Browser, { fail }: Tools): Promise<void> {
  const context = await browser.newContext();
  await context.addInitScript(() => {
    const disk = { bytes: [] as number[], time: 1, isFull: false };
    const handle = {
      name: "ours.xlsx",
      getFile: async () => ({ lastModified: disk.time, name: "ours.xlsx" }),
      createWritable: async () => ({
        write: async (bytes: Uint8Array) => {
          if (disk.isFull) throw new Error("The disk is full.");
          disk.bytes = [...bytes];
        },
        close: async () => {
          disk.time += 1;
        },
        abort: async () => undefined,
      }),
    };
    Object.assign(globalThis, { disk, showSaveFilePicker: async () => handle });
  });
  const open = await opened(context);
  const { page } = open;
  const disk = (change: Record<string, unknown>) =>
    page.evaluate((so) => {
      const { disk: there } = globalThis as unknown as { disk: { bytes: number[]; time: number } };
      Object.assign(there, so);
      return there.bytes.length;
    }, change);
  const state = page.locator(".file-state");
  await newInjury(page);
  await keep(page);
  await button(page, "Save the file").click();
  await page.getByText("Saved to ours.xlsx").waitFor();
  const first = await disk({ isFull: true });
  if (first < 1000) fail("nothing was written to the file");
  await newInjury(page, "P02");
  await keep(page);
  await button(page, "Save the file").click();
  await page.getByText("The disk is full.").waitFor();
  if (!(await state.textContent())?.includes("one change is not in the file"))
    fail("after a failed writing the change counts as saved");
  await disk({ isFull: false, time: 99 });
  await button(page, "Save the file").click();
  await page.getByRole("dialog").getByText("changed elsewhere since").waitFor();
  await page.getByRole("button", { name: "Write over it" }).click();
  await page.getByText("all changes are in the file").waitFor();
  if ((await disk({})) <= first) fail("the second injury is not in the file");
  for (const fault of open.faults) fail(`file: ${fault}`);
  await context.close();
}

/** With keys alone: to the form, through it, and kept. */
export async function keysAreEnough(browser: Browser, { fail }: Tools): Promise<void> {
  const context = await browser.newContext();
  const open = await recordIn(context);
  const { page } = open;
  await button(page, "New injury").focus();
  await page.keyboard.press("Enter");
  await page.locator("#record-form-title").waitFor();
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  await page.keyboard.type("P07");
  if ((await field(page, "injury_id").inputValue()) !== "P07-1")
    fail("keys do not reach the fields of the form");
  await page.keyboard.press("Enter");
  await button(page, "Keep it as it is").waitFor();
  await page.keyboard.press("Enter");
  await page.locator(".set-aside-mark").waitFor();
  const focused = await page.evaluate(() => document.activeElement?.id);
  if (focused !== "record-title") fail(`after keeping a row, keys are at ${focused}`);
  for (const fault of open.faults) fail(`keys: ${fault}`);
  await context.close();
}
