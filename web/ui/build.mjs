// Notes in the build what it was built from, so that a test can tell a stale one. With
// a folder as argument the note is written there.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));

function files(folder) {
  return readdirSync(join(here, folder)).flatMap((name) => {
    const path = `${folder}/${name}`;
    return statSync(join(here, path)).isDirectory() ? files(path) : [path];
  });
}

const sources = [
  "build.mjs", "index.html", "package-lock.json", "package.json", "svelte.config.js", "tsconfig.json", "vite.config.ts",
  ...files("src"), ...files("../../figure/charts/src"),
].sort();
const hash = createHash("sha256");
for (const name of sources) {
  const text = readFileSync(join(here, name));
  hash.update(`${name} ${text.length}\n`);
  hash.update(text);
}
writeFileSync(join(process.argv[2] ?? join(here, "../dist"), "sources.txt"), hash.digest("hex") + "\n");
