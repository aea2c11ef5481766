import { describe, expect, it } from "vitest";
import { pooledCurvesFigure, pooledSitesFigure, themes } from "../../../src/charts/index.js";
import { renderSvg } from "../../../src/report/render-svg.js";
import { inOrder, weightWords } from "../../../src/words/figures/pooled-sites.js";
import { fewSitesWords } from "../../../src/words/pooling/few-sites.js";
import { drawnTexts } from "../report-render/svg-texts.js";
import { inventedSiteCurves } from "./invented-site-curves.js";
import { differenceAtSites, inventedShare, sitesWithGaps } from "./invented-sites.js";

const textsOf = async (figure: Parameters<typeof renderSvg>[0]): Promise<string> =>
  drawnTexts(await renderSvg(figure))
    .map(({ text }) => text)
    .join(" ")
    .replaceAll("\u00a0", " ");

describe("the figure of sites and their pooled answer", () => {
  it("says how many sites, injuries and people stand behind it, and by what method", async () => {
    const text = await textsOf(pooledSitesFigure(inventedShare(12), themes.screen));
    expect(text).toContain("12 sites, 1247 injuries, 1247 people; random effects by exact counts");
    expect(text).toContain("General information about a group of past patients");
  });

  it("has every site with its injuries, weight and estimate, and two rows of the pooled answer", async () => {
    const shown = inventedShare(12);
    const { description } = pooledSitesFigure(shown, themes.screen);
    for (const { site, injuries } of shown.sites) expect(description).toContain(`${site}: n = ${injuries}, `);
    const text = await textsOf(pooledSitesFigure(shown, themes.screen));
    for (const word of ["pooled answer", "a further site", "weight", "injuries"])
      expect(text).toContain(word);
  });

  it("puts the site with most injuries first, and one whose number is left out after those that are told", () => {
    const order = inOrder(sitesWithGaps().sites).map(({ injuries }) => injuries);
    const told = order.slice(0, -1) as number[];
    expect(told).toEqual([...told].sort((a, b) => b - a));
    expect(order.at(-1)).toBe("[left out]");
  });

  it("says why a site has no interval or no answer, and that it has no part", async () => {
    const text = await textsOf(pooledSitesFigure(sitesWithGaps(), themes.poster));
    for (const reason of ["no interval: too few injuries", "follow-up ends earlier", "[left out]", "none"])
      expect(text).toContain(reason);
  });

  it("names both sides of no difference, and has no such line where nothing is compared", async () => {
    const compared = await textsOf(pooledSitesFigure(differenceAtSites(3), themes.screen));
    expect(compared).toContain("tape back more often");
    expect(await textsOf(pooledSitesFigure(inventedShare(3), themes.screen))).not.toContain("more often");
  });

  it.each([
    [1, "One site: this is its own answer"],
    [2, "Two sites: how far sites lie apart rests on a single comparison"],
    [3, "Three sites are few"],
    [9, "Nine sites are few"],
  ])("%i sites: says what they cannot tell", (count, words) => {
    expect(fewSitesWords(count).join()).toContain(words);
  });

  it("ten sites are not said to be few", () => {
    expect(fewSitesWords(10)).toEqual([]);
  });

  it.each([
    [0, "none"],
    [0.0049, "< 1 %"],
    [0.005, "1 %"],
    [0.996, "100 %"],
  ])("a weight of %f is %s", (weight, words) => {
    expect(weightWords(weight).replaceAll("\u00a0", " ")).toBe(words);
  });

  it("draws nothing outside the plot for a site whose interval goes on beyond it", async () => {
    const whole = differenceAtSites(3);
    const [first, ...others] = whole.sites;
    const wide = { ...whole, sites: [{ ...first!, lower: -900, upper: 900 }, ...others] };
    const text = await textsOf(pooledSitesFigure(wide, themes.screen));
    expect(text).toContain("\u25c4");
    expect(text).toContain("\u25ba");
  });
});

describe("the figure of sites' curves and the pooled one", () => {
  it("tells the pooled shares with their intervals, and where a further site is expected", () => {
    const { description } = pooledCurvesFigure(inventedSiteCurves(12), themes.screen);
    expect(description).toMatch(/week 13: \d+ \(\d+ to \d+\), a further site \d+ to \d+/);
  });

  it("says that a line between agreed days only guides the eye, and not so of a whole curve", async () => {
    expect(await textsOf(pooledCurvesFigure(inventedSiteCurves(3), themes.screen))).toContain(
      "guides the eye",
    );
    const whole = inventedSiteCurves(12, { coarse: false });
    expect(await textsOf(pooledCurvesFigure(whole, themes.screen))).not.toContain("guides the eye");
  });
});
