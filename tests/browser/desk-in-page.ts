import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";

const file = new URL("../../../../../dist/workbench.html", import.meta.url).href;
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const launch = (executablePath: string): Promise<Browser> =>
  chromium.launch({
    executablePath,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });

/** The workbench opened from the disk, and everything that went wrong in it. */
export interface OpenPage {
  readonly page: Page;
  /** Errors of the page, words on its console, and requests for anything but the file itself. */
  readonly faults: string[];
}

export async function openWorkbench(context: BrowserContext): Promise<OpenPage> {
  const page = await context.newPage();
  const faults: string[] = [];
  page.on("console", (message) => faults.push(`console: ${message.text()}`));
  page.on("pageerror", ({ message }) => faults.push(`error of the page: ${message}`));
  page.on("request", (request) => {
    const url = request.url();
    if (url !== file && !url.startsWith("blob:") && !url.startsWith("data:"))
      faults.push(`request for ${url}`);
  });
  await page.goto(file);
  await page.getByText("Drop your spreadsheet here").waitFor();
  return { page, faults };
}

/** Waits until the engine has nothing to do. */
export async function settled(page: Page): Promise<void> {
  await page.waitForTimeout(150);
  await page.locator(".doing.idle").waitFor({ state: "attached", timeout: 600_000 });
}

/** What is brought in one go: paths, or files in memory. */
export type Brought = string[] | { name: string; mimeType: string; buffer: Buffer }[];

export async function bring(page: Page, files: Brought): Promise<void> {
  await page.locator("#bring input[type=file]").setInputFiles(files);
  await settled(page);
}

/** Presses a button and waits for what it sets going. */
export async function press(page: Page, name: string): Promise<void> {
  await page.getByRole("button", { name, exact: true }).click();
  await settled(page);
}

/** Answers questions about columns by their first choice, up to one that has none; how many were answered. */
export async function answerAll(page: Page): Promise<number> {
  for (let count = 0; ; count++) {
    const choice = page.locator(".question").first().locator(".choices button").first();
    if ((await choice.count()) === 0 || count > 200) return count;
    await choice.click();
    await settled(page);
  }
}

export const troubles = (page: Page): Promise<string[]> => page.locator(".trouble").allTextContents();

/** Violations of WCAG 2.2 A and AA on the page as it stands, in words. */
export async function violations(page: Page): Promise<string[]> {
  // evaluated by the browser itself, which the policy of the page does not bind
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe: checker } = globalThis as unknown as {
      axe: {
        run: (
          root: unknown,
          options: unknown,
        ) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
      };
    };
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const found = await checker.run(document, { runOnly: { type: "tag", values: tags } });
    return found.violations.map(
      ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 160)).join(" | ")}`,
    );
  });
}
