/** Name under which the figures and the report call for the bundled font. */
export const fontFamily = "Inter";

/** The faces of the bundled font: name of the files, and weight. */
export const faces = [
  { file: "Inter-Regular", weight: 400 },
  { file: "Inter-Bold", weight: 700 },
] as const;

/** Style rules that bring the bundled font along as data URIs. */
export const fontFaceRules = (woff2InBase64: (file: string) => string): string =>
  faces
    .map(
      ({ file, weight }) =>
        `@font-face{font-family:"${fontFamily}";font-weight:${weight};src:url(data:font/woff2;base64,${woff2InBase64(file)}) format("woff2")}`,
    )
    .join("");
