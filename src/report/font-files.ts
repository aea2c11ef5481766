import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Name under which the figures and the report call for the bundled font. */
export const fontFamily = "Inter";

const faces = [
  { file: "Inter-Regular", weight: 400 },
  { file: "Inter-Bold", weight: 700 },
] as const;

const pathOf = (name: string): string => fileURLToPath(new URL(`./fonts/${name}`, import.meta.url));

/** Paths of the two TrueType files, regular and bold, for writers that want files. */
export const fontPaths = (): readonly string[] => faces.map(({ file }) => pathOf(`${file}.ttf`));

/**
 * Style rules that bring the bundled font along as data URIs, regular and bold, about 37 kB.
 *
 * @throws Error when the package's fonts are missing
 */
export function fontFaceCss(): string {
  return faces
    .map(({ file, weight }) => {
      const data = readFileSync(pathOf(`${file}.woff2`)).toString("base64");
      return `@font-face{font-family:"${fontFamily}";font-weight:${weight};src:url(data:font/woff2;base64,${data}) format("woff2")}`;
    })
    .join("");
}
