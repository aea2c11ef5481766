// Writing: a folder or a file, whole or not at all; nothing of anybody's is lost.
export type { OutputFile } from "../../run/manifest.js";
export { walk } from "./own-folder.js";
export { type FileOptions, refuseFile, writeNewFile } from "./write-file.js";
export { type FolderOptions, refuseFolder, writeFolder } from "./write-folder.js";
