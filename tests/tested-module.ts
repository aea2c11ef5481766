/** A module of src/ by its path there, from where all others are taken: the build under `npm test`, else the source. */
export const testedModule = (path: string): Promise<Record<string, unknown>> =>
  process.env.TESTS_RUN_ON === "build"
    ? import(
        /* @vite-ignore */ new URL(`../dist/${path.replace(/\.ts(?=$|\?)/, ".js")}`, import.meta.url).href
      )
    : import(/* @vite-ignore */ `../src/${path}`);
