// small dense systems
export { type Eigen, eigenSymmetric } from "./eigen.js";
export {
  type SolveOptions,
  type SymmetricSolution,
  type SymmetricSystem,
  solveSymmetric,
} from "./solve-symmetric.js";
