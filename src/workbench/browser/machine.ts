import { sha256 as digest } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { keyBytes } from "../../privacy/index.js";
import { fontFaceRules, fontFamily } from "../../report/font-face.js";
import { dotsPerInch, withResolution } from "../../report/png-resolution.js";
import type { DeskMachine } from "../engine/copy.js";
import { bytesOfBase64 } from "./base64.js";

/** What the page holds beside its code. */
export interface Assets {
  readonly version: string;
  /** By name of the face, in base64. */
  readonly woff2: Readonly<Record<string, string>>;
  readonly ttf: Readonly<Record<string, string>>;
}

const sha256 = (content: string | Uint8Array): string =>
  bytesToHex(digest(typeof content === "string" ? new TextEncoder().encode(content) : content));

/** Draws pixels, by the code that draws them under Node, compiled for browsers. */
export type PixelCode = () => Promise<Uint8Array>;

/** A browser, as a run asks for it. */
export function browserMachine(assets: Assets, pixelCode: PixelCode): DeskMachine {
  return {
    sha256,
    drawPng: drawingWith(assets, pixelCode),
    fontCss: () => fontFaceRules((file) => assets.woff2[file]!),
    newKey: () => crypto.getRandomValues(new Uint8Array(keyBytes)),
    engine: "the workbench in a browser",
    version: assets.version,
  };
}

function drawingWith({ ttf }: Assets, pixelCode: PixelCode): DeskMachine["drawPng"] {
  let fontBuffers: Uint8Array[] | null = null;
  let started: Promise<typeof import("@resvg/resvg-wasm")> | null = null;
  const start = async () => {
    const [drawing, code] = await Promise.all([import("@resvg/resvg-wasm"), pixelCode()]);
    await drawing.initWasm(code as BufferSource);
    return drawing;
  };
  return async (svg) => {
    started ??= start();
    const { Resvg } = await started;
    fontBuffers ??= Object.values(ttf).map(bytesOfBase64);
    const drawing = new Resvg(svg, {
      fitTo: { mode: "zoom", value: dotsPerInch / 96 },
      font: { fontBuffers, loadSystemFonts: false, defaultFontFamily: fontFamily },
    });
    const drawn = drawing.render();
    const png = drawn.asPng();
    drawn.free();
    drawing.free();
    return withResolution(png, dotsPerInch);
  };
}
