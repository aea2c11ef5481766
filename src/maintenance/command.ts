import { relative } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "vite";

// Makes dist/command/: the command line with all packages it calls, in some hundred files instead of 1,600. Finding and opening those
// took a fifth of the time of a small report. Nothing else changes: verbs are still loaded when they are called. Run by `npm run build`.

const dist = fileURLToPath(new URL("../", import.meta.url));

/**
 * Code that asks where it stands still hears where it was compiled to: fonts, page and package file are found from there. The file of
 * a thread is looked for in dist/command, where it has its packages beside it.
 */
const ownPlace: Plugin = {
  name: "own-place",
  transform(code, id) {
    if (!id.startsWith(dist) || !code.includes("import.meta.url")) return null;
    const place = JSON.stringify(`../${relative(dist, id)}`);
    return code.replaceAll(
      /(?<!-worker\.js", )import\.meta\.url/g,
      `new URL(${place}, import.meta.url).href`,
    );
  },
};

await build({
  root: dist,
  configFile: false,
  logLevel: "warn",
  plugins: [ownPlace],
  // what draws pixels is compiled for each system: it stays the package that was installed
  ssr: { noExternal: true, external: ["@resvg/resvg-js"] },
  build: {
    ssr: true,
    rolldownOptions: { input: [`${dist}cli/main.js`, `${dist}report/drawing-worker.js`] },
    outDir: `${dist}command`,
    assetsDir: "",
    emptyOutDir: true,
    target: "node20",
    minify: false,
  },
});
