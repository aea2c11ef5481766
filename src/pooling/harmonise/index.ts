export { harmonise } from "./harmonise.js";
