import { svelte } from "@sveltejs/vite-plugin-svelte";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// Names without hashes keep the committed build small to change; the server's own
// sums tell a browser what is new.
export default defineConfig({
  plugins: [svelte()],
  base: "./",
  resolve: {
    alias: {
      "@charts": here("../../figure/charts/src"),
      "d3-scale": here("node_modules/d3-scale"),
      "d3-shape": here("node_modules/d3-shape"),
    },
  },
  build: {
    outDir: here("../dist"),
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      output: { entryFileNames: "desk.js", chunkFileNames: "[name].js", assetFileNames: "[name][extname]" },
    },
  },
});
