// What is written of counts with few people behind them.
export { type Fewest, fewestRows } from "./fewest.js";
export { countSmallCells, usualSmallestCell, withoutSmallCells } from "./small-cells.js";
