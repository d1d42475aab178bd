// Builds dist/charts.js from src, and notes in it what it was built from, so that a
// test can tell a stale bundle. The same sources give the same bytes.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const sources = ["build.mjs", "package-lock.json", "package.json", "tsconfig.json",
  ...readdirSync(join(here, "src")).map((name) => "src/" + name)].sort();
const hash = createHash("sha256");
for (const name of sources) {
  const text = readFileSync(join(here, name));
  hash.update(`${name} ${text.length}\n`);
  hash.update(text);
}
await build({
  absWorkingDir: here,
  entryPoints: ["src/main.ts"],
  outfile: process.argv[2] ?? "dist/charts.js",
  bundle: true,
  format: "iife",
  globalName: "foilwrightCharts",
  target: "es2017",
  charset: "utf8",
  minifyWhitespace: true,
  minifySyntax: true,
  legalComments: "none",
  banner: { js: `/* sources ${hash.digest("hex")}; d3-scale, d3-shape and what they need: ISC, copyright Mike Bostock */` },
});
