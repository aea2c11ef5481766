import type { NamedBytes } from "../engine/tasks.js";

/** An address of a file in memory stays good for so long, in thousandths of a second: a slow disk, a new window. */
const keptFor = 60_000;

const addressOf = ({ bytes }: NamedBytes, type: string): string => {
  const address = URL.createObjectURL(new Blob([bytes as BlobPart], { type }));
  setTimeout(() => URL.revokeObjectURL(address), keptFor);
  return address;
};

/** Gives a file to the browser to save; of what type it is may be left to its name. */
export function saveFile(file: NamedBytes, type = ""): void {
  const link = document.createElement("a");
  link.href = addressOf(file, type);
  link.download = file.name;
  link.click();
}
