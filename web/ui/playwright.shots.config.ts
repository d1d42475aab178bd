import { defineConfig } from "@playwright/test";
import browser from "./playwright.config";

// Pictures of every view, to be looked at: npm run shots, then open what it names.
export default defineConfig({ ...browser, testDir: "shots", timeout: 1_800_000 });
