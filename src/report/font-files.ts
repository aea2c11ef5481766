import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { faces, fontFaceRules } from "./font-face.js";

const pathOf = (name: string): string => fileURLToPath(new URL(`./fonts/${name}`, import.meta.url));

/** Paths of the two TrueType files, regular and bold, for writers that want files. */
export const fontPaths = (): readonly string[] => faces.map(({ file }) => pathOf(`${file}.ttf`));

/**
 * Style rules that bring the bundled font along as data URIs, regular and bold, about 37 kB.
 *
 * @throws Error when the package's fonts are missing
 */
export const fontFaceCss = (): string =>
  fontFaceRules((file) => readFileSync(pathOf(`${file}.woff2`)).toString("base64"));
