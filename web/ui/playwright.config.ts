import { defineConfig } from "@playwright/test";

// Debian's Chromium, one page at a time: dragging is timed by what else the machine does.
export default defineConfig({
  testDir: "tests",
  outputDir: process.env.FOILWRIGHT_BROWSER_OUT ?? "/tmp/foilwright-browser",
  workers: 1,
  fullyParallel: false,
  timeout: 90_000,
  expect: { timeout: 30_000 },
  reporter: [["list"]],
  use: {
    viewport: { width: 1440, height: 900 },
    launchOptions: { executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] },
  },
});
