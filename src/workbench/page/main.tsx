import { render } from "preact";
import { App } from "./app.js";
import "./style.css";

render(<App />, document.getElementById("page")!);
