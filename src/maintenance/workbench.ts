import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { build, type Plugin } from "vite";
import { faces } from "../report/font-face.js";

// Makes dist/workbench.html: page, style, engine and fonts in one file, under a policy that lets it load nothing.

const root = fileURLToPath(new URL("../../", import.meta.url));
const source = (path: string): string => `${root}src/workbench/${path}`;
const text = (path: string): string => readFileSync(`${root}${path}`, "utf8");
const base64 = (bytes: string | Uint8Array): string => Buffer.from(bytes).toString("base64");
/** No clock in the header, so that the same code gives the same bytes. */
const packed = (bytes: string | Uint8Array): string => base64(gzipSync(bytes, { level: 9 }));

/** What the engine and the page take from files of the project, as modules. */
const assets: Plugin = {
  name: "workbench-assets",
  resolveId: (id) => (id === "workbench:examples" ? "\0workbench:examples" : null),
  load: (id) => (id === "\0workbench:examples" ? `export default ${JSON.stringify(examples())}` : null),
};

/** The scenarios from which synthetic cohorts are drawn. */
const examples = () =>
  ["one-clinic", "three-sites", "registry"].map((name) => ({
    name: `${name}.yaml`,
    text: text(`synthetic-data/${name}/scenario.yaml`),
  }));

async function bundle(entry: string): Promise<{ readonly code: string; readonly css: string }> {
  const built = await build({
    root: source(""),
    configFile: false,
    logLevel: "warn",
    plugins: [assets],
    resolve: { conditions: ["browser", "import", "module", "default"] },
    oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
    build: {
      write: false,
      target: "es2022",
      cssCodeSplit: false,
      lib: { entry: source(entry), formats: ["iife"], name: "workbench", fileName: "bundle" },
    },
  } as Parameters<typeof build>[0]);
  const outputs = (Array.isArray(built) ? built : [built]).flatMap((one) =>
    "output" in one ? one.output : [],
  );
  const code = outputs.flatMap((one) => (one.type === "chunk" ? [one.code] : []));
  const css = outputs.flatMap((one) => (one.type === "asset" ? [String(one.source)] : []));
  if (code.length !== 1) throw new Error(`${entry}: one file of code was expected, ${code.length} were made`);
  return { code: code[0]!, css: css.join("\n") };
}

const hashOf = (content: string): string =>
  `'sha256-${createHash("sha256").update(content).digest("base64")}'`;

/** Text inside a script that ends at the first closing tag. */
const asScript = (code: string): string => code.replaceAll("</script", "<\\/script");

async function workbench(): Promise<string> {
  const engine = await bundle("browser/worker.ts");
  const { code, css } = await bundle("page/main.tsx");
  const fonts = (ending: string) =>
    Object.fromEntries(
      faces.map(({ file }) => [file, base64(readFileSync(`${root}src/report/fonts/${file}.${ending}`))]),
    );
  const { version } = JSON.parse(text("package.json")) as { version: string };
  const given = JSON.stringify({ version, woff2: fonts("woff2"), ttf: fonts("ttf") });
  const pixels = readFileSync(createRequire(import.meta.url).resolve("@resvg/resvg-wasm/index_bg.wasm"));
  const [script, style] = [asScript(code), css.trim()];
  // the engine comes packed and starts from memory; drawing code that is compiled for browsers needs its own word in the policy
  const policy = [
    "default-src 'none'",
    `script-src ${hashOf(script)} 'wasm-unsafe-eval' blob:`,
    "worker-src blob:",
    `style-src ${hashOf(style)}`,
    "img-src data: blob:",
    "font-src data:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>Workbench: outcomes of finger pulley injuries</title>
<style>${style}</style>
</head>
<body>
<div id="page"><p>The workbench needs a browser that runs scripts. Nothing has been loaded and nothing is sent.</p></div>
<script type="text/plain" id="assets">${asScript(given)}</script>
<script type="text/plain" id="engine">${packed(engine.code)}</script>
<script type="text/plain" id="pixels">${packed(pixels)}</script>
<script>${script}</script>
</body>
</html>
`;
}

const page = await workbench();
writeFileSync(`${root}dist/workbench.html`, page);
process.stdout.write(`dist/workbench.html: ${page.length} bytes\n`);
