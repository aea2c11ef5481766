import type { Browser } from "playwright-core";
import { answerAll, bring, openWorkbench, press } from "./desk-in-page.js";

/** What was brought and answered is kept only after a yes, comes back after a reload, and is gone once it is forgotten. */
export async function workIsKept(browser: Browser, sheet: string): Promise<readonly string[]> {
  const found: string[] = [];
  const context = await browser.newContext();
  const { page, faults } = await openWorkbench(context);
  const offer = page.getByText("has kept your work from before");
  const isOffered = () =>
    offer.waitFor({ timeout: 30_000 }).then(
      () => true,
      () => false,
    );
  const reload = async () => {
    await page.reload();
    await page.getByText("Drop your spreadsheet here").waitFor();
    await page.waitForTimeout(2000);
  };
  await bring(page, [sheet]);
  await reload();
  if ((await offer.count()) > 0) found.push("something was kept without a yes");
  await bring(page, [sheet]);
  await page.getByText("Keep my data and answers in this browser").click();
  await press(page, "Yes, keep them in this browser");
  await answerAll(page);
  await press(page, "The rows are read rightly");
  await press(page, "Go on to the question");
  await press(page, "Answer");
  await page.locator(".walk").waitFor();
  const answer = await page.locator(".plain").textContent();
  await page.waitForTimeout(2000);
  await reload();
  if (!(await isOffered())) found.push("after a reload the work is not offered");
  else {
    await page
      .getByRole("region", { name: "Kept in this browser" })
      .getByRole("button", { name: "Go on with it" })
      .click();
    await page.locator(".walk").waitFor({ timeout: 600_000 });
    if ((await page.locator(".plain").textContent()) !== answer)
      found.push("after a reload the answer is another one");
  }
  await press(page, "Forget everything");
  await page.waitForTimeout(2000);
  await reload();
  if ((await offer.count()) > 0) found.push("what was forgotten is offered");
  found.push(...faults);
  await context.close();
  return found;
}
