import "../browser/without-eval.js";
import { render } from "preact";
import { App } from "./app.js";
import "./style.css";

const page = document.getElementById("page")!;
page.replaceChildren();
render(<App />, page);
