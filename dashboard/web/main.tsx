import { render } from "preact";
import { App } from "./App.tsx";
import { startPage } from "./state/startPage.ts";
import { loadFonts } from "./styles/loadFonts.ts";
import "./styles/tokens.css";
import "./styles/ground.css";
import "./styles/parts.css";
import "./styles/forms.css";

const page = startPage({ window, localMs: () => Date.now(), random: () => Math.random() });
const place = document.querySelector("#page");
if (place === null) throw new Error("index.html has no #page");
render(<App page={page} />, place);
requestAnimationFrame(() => {
  void loadFonts(document);
  void import("./state/beReadyOffline.ts").then((file) => file.beReadyOffline(window, page)).catch(() => {});
});
