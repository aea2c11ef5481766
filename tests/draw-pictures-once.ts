import { createRequire, syncBuiltinESMExports } from "node:module";
import threads, { type Transferable, Worker } from "node:worker_threads";

type Rasteriser = typeof import("@resvg/resvg-js");
type Picture = Awaited<ReturnType<Rasteriser["renderAsync"]>>;

/** As many pictures as a few reports hold. */
const kept = 200;

/** What was made last for each text. */
class Kept<T> {
  readonly #made = new Map<string, T>();

  get(text: string): T | undefined {
    return this.#made.get(text);
  }

  keep(text: string, made: T): T {
    this.#made.delete(text);
    this.#made.set(text, made);
    if (this.#made.size > kept) this.#made.delete(this.#made.keys().next().value!);
    return made;
  }
}

/**
 * Turning drawings into pictures takes a third of the time of a report, and most reports of the tests draw the same few
 * cohorts. Here the rasteriser is asked once a process for each drawing. That it gives the same bytes each time is held
 * by report-render/png.test.ts, which runs without this.
 */
function drawOnce(rasteriser: Rasteriser): void {
  const { renderAsync } = rasteriser;
  const pictures = new Kept<Promise<Picture>>();
  const once: Rasteriser["renderAsync"] = (svg, options) => {
    const key = JSON.stringify([svg, options]);
    return pictures.keep(key, pictures.get(key) ?? renderAsync(svg, options).then(encodedOnce));
  };
  Object.assign(rasteriser, { renderAsync: once, drawsOnce: true });
}

/** Encoding takes longer than rasterising: each asks for bytes of its own. */
function encodedOnce(picture: Picture): Picture {
  const bytes = picture.asPng();
  return Object.assign(picture, { asPng: () => Buffer.from(bytes) });
}

interface ToDraw {
  readonly number: number;
  /** A drawing to turn into a picture, or a figure to draw. */
  readonly from: unknown;
}

type Drawn = string | Uint8Array;

const drawnByThread = new Kept<Drawn>();
const keyOf = (from: unknown): string => JSON.stringify(from);
/** Whoever takes bytes may hand them on. */
const copyOf = (drawn: Drawn): Drawn => (typeof drawn === "string" ? drawn : drawn.slice());

/** The threads that draw are asked once for each drawing as well; any other thread is as it was. */
class DrawsOnce extends Worker {
  readonly #isDrawing: boolean;
  readonly #asked = new Map<number, string>();

  constructor(...[file, options]: ConstructorParameters<typeof Worker>) {
    super(file, options);
    this.#isDrawing = String(file).endsWith("drawing-worker.js");
    if (!this.#isDrawing) return;
    this.prependListener("message", ({ number, to }: { number: number; to?: Drawn }) => {
      const key = this.#asked.get(number);
      this.#asked.delete(number);
      if (key !== undefined && to !== undefined) drawnByThread.keep(key, copyOf(to));
    });
  }

  override postMessage(value: unknown, transfer?: readonly Transferable[]): void {
    if (!this.#isDrawing) {
      super.postMessage(value, transfer);
      return;
    }
    const { number, from } = value as ToDraw;
    const key = keyOf(from);
    const drawn = drawnByThread.get(key);
    if (drawn !== undefined) setImmediate(() => this.emit("message", { number, to: copyOf(drawn) }));
    else {
      this.#asked.set(number, key);
      super.postMessage(value, transfer);
    }
  }
}

// the object that an import of the package takes its functions from, as long as nobody has imported it before
const rasteriser = createRequire(import.meta.url)("@resvg/resvg-js") as Rasteriser;
if (!("drawsOnce" in rasteriser)) drawOnce(rasteriser);
if (threads.Worker.name !== DrawsOnce.name) {
  Object.assign(threads, { Worker: DrawsOnce });
  syncBuiltinESMExports();
}
