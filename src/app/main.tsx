/** Starts the page: what was kept is read first, and only an empty bench gets the worked example. */
import { createRoot } from "react-dom/client";
import { config } from "zod/mini";
import type { Project } from "../document/project.ts";
import { App } from "./shell/App.tsx";
import { keepDocument, type Kept } from "./store/keep.ts";
import { createStore } from "./store/store.ts";
import "./style/font.css";
import "./style/ground.css";
import "./style/controls.css";
import "./style/help.css";
import "./style/header.css";
import "./style/ladder.css";
import "./style/fabric.css";
import "./style/advice.css";
import "./style/weights.css";
import "./style/cloth.css";
import "./style/wishes.css";
import "./style/distance.css";
import "./style/narrow.css";
import "./style/paper.css";

// The page's content security policy forbids building functions from text, which zod would otherwise try.
config({ jitless: true });

const store = createStore();
const keptListeners = new Set<() => void>();
let kept: Kept = { state: "opening" };

const root = createRoot(document.getElementById("bench")!);
root.render(
  <App
    store={store}
    kept={{
      subscribe: (listener) => {
        keptListeners.add(listener);
        return () => keptListeners.delete(listener);
      },
      state: () => kept,
    }}
  />,
);

void (async () => {
  await keepDocument(store.document, (next) => {
    kept = next;
    for (const listener of keptListeners) listener();
  });
  if (store.state().project) return;
  // Ours, and held by a test to be readable without a problem: it is not judged again on every first visit.
  const { default: text } = await import("#examples/weather-station-vest.twostrand.json?raw");
  const example = JSON.parse(text) as Project;
  // Her first shelf has the example's yarns, so that it can be tried; a bench from before there was a shelf keeps none.
  store.begin(example, { format: "twostrand-shelf", version: 1, yarns: example.yarns });
})();

if (import.meta.env.PROD && "serviceWorker" in navigator)
  addEventListener("load", () => void navigator.serviceWorker.register("./sw.js").catch(() => undefined));
