/** A short name for the mapping of a file, from the name of the file. */
export const mappingNameFor = (file: string): string =>
  file
    .toLowerCase()
    .replace(/\.[^.]*$/, "")
    .replaceAll(/[^a-z0-9]+/g, "-")
    .slice(0, 60)
    .replaceAll(/^-+|-+$/g, "") || "mapping";
