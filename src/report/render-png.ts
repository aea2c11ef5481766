import { existsSync } from "node:fs";
import { fontFamily } from "./font-face.js";
import { fontPaths } from "./font-files.js";
import { dotsPerInch, withResolution } from "./png-resolution.js";

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

/** A figure of a report as PNG. */
export const figureAsPng = (svg: string): Promise<Uint8Array> => renderPng(svg, { dpi: dotsPerInch });
