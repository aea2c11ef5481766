/** What a notebook cell shows, by media type. */
export interface Shown {
  readonly "image/svg+xml"?: string;
  readonly "text/html"?: string;
  readonly "text/plain": string;
}

/** Where the notebook runner listens; a symbol, so that no cell can meet it by accident. */
export const collectorKey = Symbol.for("pulley-outcomes.notebook-collector");

interface Host {
  readonly [collectorKey]?: (shown: Shown) => void;
  readonly Deno?: { readonly jupyter?: { display: (bundle: Shown, how: { raw: true }) => Promise<void> } };
}

/**
 * Shows a figure or a table below a notebook cell: to the runner when it runs the notebook,
 * to the kernel when somebody works in it, and as plain text anywhere else.
 */
export async function show(shown: Shown): Promise<void> {
  const host = globalThis as Host;
  if (host[collectorKey] !== undefined) {
    host[collectorKey](shown);
  } else if (host.Deno?.jupyter !== undefined) {
    await host.Deno.jupyter.display(shown, { raw: true });
    // without a pause the kernel may end the cell before the output is on its way
    await new Promise((resolve) => setTimeout(resolve, 50));
  } else {
    process.stdout.write(`${shown["text/plain"]}\n`);
  }
}
