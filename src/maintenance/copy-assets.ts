import { cpSync } from "node:fs";
import { fileURLToPath } from "node:url";

/** Puts beside the compiled code what the compiler leaves behind: the fonts, and the query for databases. Run by `npm run build`. */
for (const path of ["report/fonts/", "pooling/tables/risk-sets.sql"]) {
  const [from, to] = [`../../src/${path}`, `../${path}`].map((place) =>
    fileURLToPath(new URL(place, import.meta.url)),
  );
  cpSync(from!, to!, { recursive: true });
}
