import { fileURLToPath } from "node:url";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/**
 * lib0, on which Yjs stands, describes kinds of nodes while it loads, and for that brings a whole language of descriptions. Nobody here asks
 * for them; told that these calls do nothing else, the build leaves both out.
 */
const lib0Pure = {
  name: "lib0-pure",
  transform: (code: string, id: string) =>
    id.endsWith("/lib0/dom.js") ? code.replaceAll("$.$custom(", "/* @__PURE__ */ $.$custom(") : null,
};

/** Two builds: `--mode app` makes the page in dist/app, `--mode node` the library and the command line in dist. */
export default defineConfig(({ mode }) =>
  mode === "node"
    ? {
        build: {
          ssr: true,
          outDir: "dist",
          emptyOutDir: false,
          target: "node20",
          rollupOptions: {
            input: { index: "src/index.ts", "cli/main": "src/cli/main.ts" },
            output: { format: "es" as const, entryFileNames: "[name].js", chunkFileNames: "chunks/[name]-[hash].js" },
          },
        },
      }
    : {
        root: "src/app",
        base: "./",
        publicDir: "public",
        resolve: { alias: { "#examples": fileURLToPath(new URL("./examples", import.meta.url)) } },
        plugins: [
          react(),
          lib0Pure,
          VitePWA({
            registerType: "prompt",
            injectRegister: null,
            manifest: {
              name: "Twostrand",
              short_name: "Twostrand",
              description: "Plan the colours of a stranded-colourwork garment.",
              display: "standalone",
              start_url: "./",
              background_color: "#a8a8a8",
              theme_color: "#dedede",
              icons: [{ src: "icon.svg", sizes: "any", type: "image/svg+xml", purpose: "any" }],
            },
            workbox: {
              globPatterns: ["**/*.{js,mjs,css,html,svg,woff2,ttf,pfb,wasm}"],
              maximumFileSizeToCacheInBytes: 4_000_000,
            },
          }),
        ],
        worker: { format: "es" as const },
        build: { outDir: "../../dist/app", emptyOutDir: true, target: "es2023" },
        server: { port: 5180 },
        preview: { port: 5180, host: "127.0.0.1" },
      },
);
