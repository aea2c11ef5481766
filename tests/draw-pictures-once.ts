import { createRequire } from "node:module";

type Rasteriser = typeof import("@resvg/resvg-js");
type Picture = Awaited<ReturnType<Rasteriser["renderAsync"]>>;

/** As many pictures as a few reports hold. */
const kept = 200;

/**
 * Turning drawings into pictures takes a third of the time of a report, and most reports of the tests draw the same few
 * cohorts. Here the rasteriser is asked once a process for each drawing. That it gives the same bytes each time is held
 * by report-render/png.test.ts, which runs without this.
 */
function drawOnce(rasteriser: Rasteriser): void {
  const { renderAsync } = rasteriser;
  const pictures = new Map<string, Promise<Picture>>();
  const once: Rasteriser["renderAsync"] = (svg, options) => {
    const key = JSON.stringify([svg, options]);
    const picture = pictures.get(key) ?? renderAsync(svg, options).then(encodedOnce);
    pictures.delete(key);
    pictures.set(key, picture);
    if (pictures.size > kept) pictures.delete(pictures.keys().next().value!);
    return picture;
  };
  Object.assign(rasteriser, { renderAsync: once, drawsOnce: true });
}

/** Encoding takes longer than rasterising: each asks for bytes of its own. */
function encodedOnce(picture: Picture): Picture {
  const bytes = picture.asPng();
  return Object.assign(picture, { asPng: () => Buffer.from(bytes) });
}

// the object that an import of the package takes its functions from, as long as nobody has imported it before
const rasteriser = createRequire(import.meta.url)("@resvg/resvg-js") as Rasteriser;
if (!("drawsOnce" in rasteriser)) drawOnce(rasteriser);
