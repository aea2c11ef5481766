import type { RenderedFigure } from "./context.js";
import { fontFaceCss } from "./font-files.js";
import { withStyle } from "./render-svg.js";

/** A figure as a file of its own, which looks the same wherever it is opened. */
export const standalone = ({ svg }: Pick<RenderedFigure, "svg">): string => withStyle(svg, fontFaceCss());
