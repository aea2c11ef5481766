import type { Browser, Page } from "playwright-core";
import { openWorkbench, press, settled, troubles, violations } from "./desk-in-page.js";

// The workbench without a mouse, without colours, without the eye: the keyboard is never lost, steps are in order, what is done is said.

const holder = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const held = document.activeElement;
    return held === null || held === document.body
      ? "nothing"
      : `${held.tagName} ${held.textContent?.slice(0, 40)}`;
  });

/** Ranks of the headings from top to bottom: none is passed over. */
const headingsInOrder = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const ranks = [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")].map(({ tagName }) =>
      Number(tagName[1]),
    );
    return ranks.flatMap((rank, i) =>
      i > 0 && rank > ranks[i - 1]! + 1
        ? [`a heading of rank ${rank} follows one of rank ${ranks[i - 1]}`]
        : [],
    );
  });

/** What a screen reader is told of while the page works. */
async function listen(page: Page): Promise<() => Promise<string[]>> {
  await page.evaluate(() => {
    const heard: string[] = [];
    Object.assign(globalThis, { heard });
    new MutationObserver(() => {
      const text = document.querySelector("[role=status]")?.textContent ?? "";
      if (text !== "" && heard.at(-1) !== text) heard.push(text);
    }).observe(document.querySelector("[role=status]")!, {
      childList: true,
      subtree: true,
      characterData: true,
    });
  });
  return () => page.evaluate(() => (globalThis as unknown as { heard: string[] }).heard);
}

async function withKeys(page: Page, control: ReturnType<Page["locator"]>, key: string): Promise<string> {
  await control.focus();
  await page.keyboard.press(key);
  await settled(page);
  return holder(page);
}

/** The whole path with the keyboard alone; what is wrong with it. */
export async function withKeyboardAlone(browser: Browser): Promise<readonly string[]> {
  const context = await browser.newContext({ reducedMotion: "reduce" });
  const { page, faults } = await openWorkbench(context);
  const heard = await listen(page);
  const found: string[] = [];
  const button = (name: string | RegExp) => page.locator("main").getByRole("button", { name, exact: true });
  const kept = async (what: string, control: ReturnType<Page["locator"]>, key = "Enter") => {
    if ((await withKeys(page, control, key)) === "nothing") found.push(`${what}: the keyboard is lost`);
    found.push(...(await headingsInOrder(page)).map((one) => `${what}: ${one}`));
  };
  await kept("an example", button("a registry, 250 injuries"));
  await kept("a query is settled", page.getByRole("button", { name: /^(It stands|They stand)$/ }).first());
  await kept("an answer is taken back", page.getByRole("button", { name: "Take back" }).first());
  await kept("on to the question", button("Go on to the question"));
  await kept("a grade is chosen", page.locator("#ask").getByRole("button", { name: /^grade 2/ }));
  await kept("a week is chosen", page.getByRole("combobox", { name: "weeks" }), "ArrowUp");
  await kept("the question is asked", button("Answer"));
  if ((await page.locator(".walk details table").count()) === 0) found.push("a chart has no table");
  const download = page.waitForEvent("download");
  await kept("a page to talk over is saved", button("Save the page"));
  await download;
  // the answer may have been computed while the question was read: then nobody waits for it
  if (!(await heard()).some((text) => text.includes("checking rows")))
    found.push(`what is being done is not said; heard: ${(await heard()).join(", ")}`);
  found.push(...faults, ...(await troubles(page)));
  await context.close();
  return found;
}

/** In the colours of the system and at twice the size; what is wrong with it. */
export async function inOwnColours(browser: Browser): Promise<readonly string[]> {
  const context = await browser.newContext({
    viewport: { width: 600, height: 450 },
    deviceScaleFactor: 2,
    forcedColors: "active",
  });
  const { page, faults } = await openWorkbench(context);
  await press(page, "one clinic, 60 injuries");
  await press(page, "Go on to the question");
  await press(page, "Answer");
  const found = [...(await violations(page)), ...faults, ...(await troubles(page))];
  const isWide = await page.evaluate(
    () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
  );
  await context.close();
  return isWide ? [...found, "at twice the size the page scrolls sideways"] : found;
}
