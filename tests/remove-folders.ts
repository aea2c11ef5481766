import { afterAll } from "vitest";
import { removeTemporaryFolders } from "./temporary-folders.js";

// run for each file of tests, unlike the modules that files share
afterAll(removeTemporaryFolders);
