// Light or dark, as the person or the system asks.

import { view } from "./desk.svelte";

const asks = matchMedia("(prefers-color-scheme: dark)");
const system = $state({ dark: asks.matches });
asks.addEventListener("change", (e) => (system.dark = e.matches));

// theme is what pages and charts are drawn in now.
export const theme = {
  get now(): "light" | "dark" {
    return view.theme === "auto" ? (system.dark ? "dark" : "light") : view.theme;
  },
};
