import { Buffer } from "node:buffer";
import type { Figure } from "../charts/figure.js";
import { fontPaths } from "./font-files.js";

/** Points to a CSS pixel. */
const points = 0.75;

/** The days in a PDF: a fixed one, since the same figure gives the same bytes. */
const noDay = new Date(0);

/** What the converter of drawings takes; it has no typings of its own. */
type DrawSvg = (
  document: object,
  svg: string,
  x: number,
  y: number,
  options: {
    readonly width: number;
    readonly height: number;
    readonly fontCallback: (family: string, bold: boolean) => string;
    readonly warningCallback: (message: string) => void;
  },
) => void;

/**
 * Draws an SVG of ours as a PDF of one page at its own size: lines stay lines and texts stay texts, with the used letters of the
 * bundled fonts in the file.
 *
 * @throws Error where the drawing holds something that would be left out
 */
export async function renderPdf(svg: string, { title }: Pick<Figure, "title">): Promise<Uint8Array> {
  const [{ default: PdfDocument }, { default: drawSvg }] = await Promise.all([
    import("pdfkit"),
    // @ts-expect-error the package has no typings
    import("svg-to-pdfkit") as Promise<{ readonly default: DrawSvg }>,
  ]);
  const [regular, bold] = fontPaths() as [string, string];
  const [width, height] = sizeOf(svg);
  const document = new PdfDocument({
    size: [width * points, height * points],
    margin: 0,
    font: regular,
    lang: "en",
    displayTitle: true,
    info: { Title: title, CreationDate: noDay, ModDate: noDay },
  });
  document.registerFont("regular", regular);
  document.registerFont("bold", bold);
  const whole = new Promise<Uint8Array>((take, fail) => {
    const pieces: Uint8Array[] = [];
    document.on("data", (piece: Uint8Array) => pieces.push(piece));
    document.on("end", () => take(new Uint8Array(Buffer.concat(pieces))));
    document.on("error", fail);
  });
  const warnings: string[] = [];
  drawSvg(document, svg, 0, 0, {
    width: width * points,
    height: height * points,
    fontCallback: (_family, isBold) => (isBold ? "bold" : "regular"),
    warningCallback: (message) => warnings.push(message),
  });
  document.end();
  if (warnings.length > 0) throw new Error(`Figure "${title}" as PDF: ${warnings.join("; ")}`);
  return whole;
}

/** Width and height of a drawing in pixels. */
export function sizeOf(svg: string): readonly [width: number, height: number] {
  const found = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg);
  if (found === null) throw new Error("A drawing without a size cannot be drawn as PDF.");
  return [Number(found[1]), Number(found[2])];
}
