export { logisticRegression } from "./logistic-regression.js";
