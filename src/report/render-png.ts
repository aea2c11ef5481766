import { existsSync } from "node:fs";
import { crc32 } from "node:zlib";
import { fontFamily, fontPaths } from "./font-files.js";

export interface PngOptions {
  /** Dots per inch; the picture's pixels are those of the SVG times dpi / 96. */
  readonly dpi: number;
}

/**
 * Draws an SVG of ours as PNG with the bundled fonts, its resolution written into the file.
 *
 * @throws RangeError for a resolution outside 36 to 1200; Error when a bundled font is missing (text would be dropped in silence)
 */
export async function renderPng(svg: string, options: PngOptions): Promise<Uint8Array> {
  if (!(options.dpi >= 36 && options.dpi <= 1200)) {
    throw new RangeError(`dpi must be between 36 and 1200; found ${options.dpi}`);
  }
  const fontFiles = fontPaths().filter((path) => existsSync(path));
  if (fontFiles.length < fontPaths().length) {
    throw new Error(
      "A font of this package is missing: report/fonts is not complete. Build or install the package again.",
    );
  }
  const { renderAsync } = await import("@resvg/resvg-js");
  const drawn = await renderAsync(svg, {
    fitTo: { mode: "zoom", value: options.dpi / 96 },
    font: { fontFiles, loadSystemFonts: false, defaultFontFamily: fontFamily },
  });
  return withResolution(drawn.asPng(), options.dpi);
}

/** Dots an inch of the PNG figures: enough for slides and print; the SVG serves anything larger. */
export const dotsPerInch = 200;

/** A figure of a report as PNG. */
export const figureAsPng = (svg: string): Promise<Uint8Array> => renderPng(svg, { dpi: dotsPerInch });

/** Bytes of the signature and the header chunk, after which the resolution may stand. */
const afterHeader = 33;

/** @source PNG specification, W3C 2003, section 11.3.5.3: pixels per unit in x and y, unit 1 = metre */
function withResolution(png: Uint8Array, dpi: number): Uint8Array {
  const chunk = new Uint8Array(21);
  const view = new DataView(chunk.buffer);
  const pixelsPerMetre = Math.round(dpi / 0.0254);
  view.setUint32(0, 9);
  chunk.set(new TextEncoder().encode("pHYs"), 4);
  view.setUint32(8, pixelsPerMetre);
  view.setUint32(12, pixelsPerMetre);
  view.setUint8(16, 1);
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  const whole = new Uint8Array(png.length + chunk.length);
  whole.set(png.subarray(0, afterHeader));
  whole.set(chunk, afterHeader);
  whole.set(png.subarray(afterHeader), afterHeader + chunk.length);
  return whole;
}
