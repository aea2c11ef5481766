import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import type { Results } from "../../src/study/results.js";
import { violations } from "./desk-in-page.js";

// Pages to talk over: every group of every committed cohort and the longest texts that data can hold print on one A4.

type TalkModule = typeof import("../../src/report/talk/index.js");

/** The longest that a study file and a table can hold, in each place that a page takes words from. */
function withLongestTexts(results: Results): Results {
  const long = "W".repeat(200);
  const { plan, curves, within, after_return: after } = results;
  const weeks = [6.25, 8, 10, 13.5, 17, 26];
  const [group] = plan.compare.groups;
  const renamed = <Part extends { readonly label: string }>(part: Part): Part =>
    part.label === group ? { ...part, label: long } : part;
  // one week that is left open, and one of which nothing is known, for the longest reason
  const atWeeks = <Landmark extends { readonly returned: unknown }>(landmarks: readonly Landmark[]) =>
    landmarks.map((landmark, i) => ({
      ...landmark,
      week: weeks[i]!,
      ...(i === 0 ? { returned: { value: 0.5, lower: 0.1, upper: 0.9, reason: null } } : {}),
      ...(i === 5 ? { returned: { value: null, lower: null, upper: null, reason: "few-not-back" } } : {}),
    }));
  return {
    ...results,
    plan: {
      ...plan,
      title: long,
      main_landmark_weeks: 17,
      landmarks_weeks: weeks,
      question: {
        ...plan.question,
        milestone: "previous_level",
        clock: "treatment_start",
        competing_ends: ["gave_up", "new_rupture", "surgery", "died"],
      },
      who: {
        sites: Array.from({ length: 200 }, (_, i) => `${long}${i}`),
        grades: ["1", "2", "3", "4a", "4b"],
        pulleys: ["A1", "A2", "A3", "A4", "A5"],
        extents: ["partial", "complete"],
        fingers: ["thumb", "index", "middle", "ring", "little"],
        age: { from: 16, to: 100 },
        first_visit_within_days: 3650,
      },
    },
    definitions: { pooled: true, rows: [] },
    known_returns: { ...results.known_returns, path: "spans" },
    curves: curves.map((family) => ({
      ...family,
      curves: family.curves.map((curve) => ({ ...renamed(curve), landmarks: atWeeks(curve.landmarks) })),
    })),
    within:
      within === null
        ? null
        : {
            ...within,
            rows: within.rows.map((row) => ({
              ...row,
              cells: row.cells.map((cell) => ({ ...renamed(cell), landmarks: atWeeks(cell.landmarks) })),
            })),
          },
    after_return: after === null ? null : { ...after, groups: after.groups.map(renamed) },
  } as Results;
}

/** Pages of a PDF as Chromium writes it. */
const pagesOf = (pdf: Buffer): number => pdf.toString("latin1").match(/\/Type\s*\/Page(?!s)/g)?.length ?? 0;
/** A4 at 72 points an inch, as Chromium rounds it. */
const isA4 = (pdf: Buffer): boolean =>
  /\/MediaBox\s*\[0 0 59[45]\.\d+ 84[12]\.\d+\]/.test(pdf.toString("latin1"));

/** How the page is looked at on a screen. */
const screens = [
  { name: "wide, light", width: 1200, look: { colorScheme: "light", forcedColors: "none" } },
  { name: "narrow, dark", width: 320, look: { colorScheme: "dark", forcedColors: "none" } },
  { name: "colours of the system", width: 768, look: { colorScheme: "light", forcedColors: "active" } },
] as const;

async function onScreens(page: Page): Promise<string[]> {
  const found: string[] = [];
  for (const { name, width, look } of screens) {
    await page.emulateMedia(look);
    await page.setViewportSize({ width, height: 900 });
    found.push(...(await violations(page)).map((one) => `${name}: ${one}`));
    const isWide = await page.evaluate(
      () => document.documentElement.scrollWidth > document.documentElement.clientWidth,
    );
    if (isWide) found.push(`${name}: the page scrolls sideways`);
  }
  return found;
}

/**
 * What is wrong with the pages to talk over; nothing where all is well.
 *
 * @param options root: of the project; pictures: where to leave a picture of each, or null
 */
export async function talkPages(
  browser: Browser,
  { root, pictures }: { readonly root: string; readonly pictures: string | null },
): Promise<{ readonly faults: readonly string[]; readonly made: number }> {
  const from = (path: string) => pathToFileURL(join(root, "dist", path)).href;
  const { talkChoices, talkOver } = (await import(from("report/talk/index.js"))) as TalkModule;
  const { fontFaceCss } = (await import(from("report/font-files.js"))) as { fontFaceCss: () => string };
  const { sha256 } = (await import(from("cli/machine.js"))) as { sha256: (text: string) => string };
  const folder = mkdtempSync(join(tmpdir(), "talk-"));
  const page = await (await browser.newContext()).newPage();
  const faults: string[] = [];
  let made = 0;
  const check = async (cohort: string, results: Results) => {
    for (const [i, { name, whyNot }] of talkChoices(results).entries()) {
      if (whyNot !== null) continue;
      const talk = await talkOver(results, { name, version: "0.0.0", fontCss: fontFaceCss(), sha256 });
      if (!talk.made) throw new Error(`${cohort}, ${name}: ${talk.why}`);
      const file = join(folder, "page.html");
      writeFileSync(file, talk.page);
      await page.goto(pathToFileURL(file).href);
      const pdf = await page.pdf({ preferCSSPageSize: true });
      made += 1;
      const what = `${cohort}, ${name.slice(0, 40)}`;
      if (pagesOf(pdf) !== 1) faults.push(`${what}: prints on ${pagesOf(pdf)} pages`);
      if (!isA4(pdf)) faults.push(`${what}: is not printed on A4`);
      if (i < 2) faults.push(...(await onScreens(page)).map((one) => `${what}: ${one}`));
      if (pictures === null) continue;
      mkdirSync(pictures, { recursive: true });
      writeFileSync(join(pictures, `talk-${cohort}-${i}.pdf`), pdf);
    }
  };
  for (const cohort of ["one-clinic", "registry", "three-sites"]) {
    const [study, into] = [join(root, "synthetic-data", cohort, "study.yaml"), join(folder, cohort)];
    execFileSync(process.execPath, [join(root, "dist/command/main.js"), "report", study, "--into", into]);
    const results = JSON.parse(readFileSync(join(into, "results.json"), "utf8")) as Results;
    await check(cohort, results);
    if (cohort === "registry") await check("longest texts", withLongestTexts(results));
  }
  await page.context().close();
  rmSync(folder, { recursive: true });
  return { faults, made };
}
