import { crc32 } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { themes } from "../../../src/charts/index.js";
import { renderPng } from "../../../src/report/render-png.js";
import { renderSvg } from "../../../src/report/render-svg.js";
import { awkwardFigures } from "../charts/awkward-figures.js";

describe("a picture", () => {
  let svg = "";
  beforeAll(async () => {
    svg = await renderSvg(awkwardFigures["three landmarks"]!(themes["two-columns"]));
  });

  it("is as many pixels wide as the drawing at its resolution, and says the resolution in its third chunk place", async () => {
    const png = Buffer.from(await renderPng(svg, { dpi: 300 }));
    // two columns of a journal: 180 mm
    expect(png.readUInt32BE(16)).toBe(Math.round((180 / 25.4) * 300));
    expect(png.toString("latin1", 37, 41)).toBe("pHYs");
    expect([png.readUInt32BE(33), png.readUInt32BE(41), png.readUInt32BE(45), png[49]]).toEqual([
      9, 11811, 11811, 1,
    ]);
    expect(png.readUInt32BE(50)).toBe(crc32(png.subarray(37, 50)));
  });

  it("has ink where the text is: with the texts taken out it is another picture", async () => {
    const silent = svg.replace(/<text\b[^>]*>.*?<\/text>/gs, "");
    const [spoken, bare] = await Promise.all([renderPng(svg, { dpi: 96 }), renderPng(silent, { dpi: 96 })]);
    expect(spoken.length).toBeGreaterThan(bare.length * 2);
  });

  it("has the same bytes twice", async () => {
    expect(await renderPng(svg, { dpi: 96 })).toEqual(await renderPng(svg, { dpi: 96 }));
  });

  it.each([0, 35, 1201, Number.NaN])("refuses a resolution of %d", async (dpi) => {
    await expect(renderPng(svg, { dpi })).rejects.toThrow("dpi must be between 36 and 1200");
  });
});
